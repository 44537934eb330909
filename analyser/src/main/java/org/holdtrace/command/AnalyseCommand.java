package org.holdtrace.command;

import java.io.IOException;
import java.nio.file.FileSystemException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.holdtrace.estimate.HoldTestResult;
import org.holdtrace.library.Estimated;
import org.holdtrace.library.Failures;
import org.holdtrace.library.InputFile;
import org.holdtrace.library.Recording;
import org.holdtrace.session.InputException;
import org.holdtrace.session.TestSetup;

/** {@code analyse}: from sessions and traces to leak rates, as text for people or JSON for programs. */
final class AnalyseCommand implements Command {
    private static final String JSON = "--json";
    private static final String CHARTS = "--charts";

    private final Steps steps;

    AnalyseCommand(Steps steps) {
        this.steps = steps;
    }

    @Override
    public String name() {
        return "analyse";
    }

    @Override
    public String summary() {
        return "leak rates with their intervals from recorded hold tests";
    }

    @Override
    public String synopsis() {
        return "PATH… [options]";
    }

    @Override
    public List<String> description() {
        return List.of(
                "Reads sessions (.hold), traces (.csv) or folders, and prints for each hold test the leak rate with",
                "its 95 % interval, the leak law, the verdict against the limit and what to be cautious about.",
                "Of a folder, the sessions and traces directly in it are taken, in the order of their names.",
                "A setup NAME.setup.json beside NAME.csv or NAME.hold is used without being asked for.");
    }

    @Override
    public List<Option> options() {
        List<Option> options = new ArrayList<>(EstimateArguments.OPTIONS);
        options.add(Option.flag(JSON, "print JSON instead of text"));
        options.add(Option.valued(
                CHARTS,
                "DIR",
                "draw one SVG a hold test into DIR, named NAME-NUMBER.svg; where two inputs",
                "share a name, the later one is called NAME-2"));
        return options;
    }

    @Override
    public int run(Arguments arguments, Streams streams) throws UsageException, IOException {
        Inputs inputs = Inputs.find(arguments.operands());
        Optional<Path> charts = chartFolder(arguments);
        int unanswered = inputs.name(streams);
        List<InputFile> files = inputs.files();
        EstimateArguments asked = EstimateArguments.NOTHING;
        try {
            asked = EstimateArguments.from(arguments, steps);
        } catch (InputException e) {
            streams.problem(e.getMessage());
            unanswered++;
            files = List.of();
        }
        SessionRun.Work<SessionResult> work = new Analysis(steps, asked, charts);
        try (ResultSink results = arguments.has(JSON) ? new ResultJson(streams.out()) : new ResultText(streams.out())) {
            Unanswered silent = new Unanswered(streams);
            unanswered += SessionRun.forEach(files, work, new Printer(results, silent), streams);
            unanswered += silent.count();
        }
        return unanswered == 0 ? ExitCode.DONE : ExitCode.SOME_REFUSED;
    }

    /** From one input to its results and charts. */
    private record Analysis(Steps steps, EstimateArguments wishes, Optional<Path> charts)
            implements SessionRun.Work<SessionResult> {
        @Override
        public SessionResult on(InputFile input) throws IOException {
            Estimated found = wishes.estimate(input, steps);
            List<String> drawn = new ArrayList<>();
            if (charts.isPresent()) {
                for (HoldTestResult result : found.results()) {
                    String name = input.stem() + "-" + result.holdTest().number() + ".svg";
                    draw(charts.get().resolve(name), input, found.recording(), found.setup(), result);
                    drawn.add(name);
                }
            }
            return new SessionResult(
                    input,
                    found.setup(),
                    found.results(),
                    drawn,
                    found.recording().notes());
        }

        /** A file that cannot be written is named itself, and not the recording. */
        private void draw(Path svg, InputFile input, Recording recording, TestSetup setup, HoldTestResult result)
                throws IOException {
            try {
                steps.draw(svg, input, recording.trace(), setup, result);
            } catch (FileSystemException e) {
                throw new IOException("its chart cannot be written; " + Failures.sentence(svg.toString(), e), e);
            }
        }
    }

    private record Printer(ResultSink results, Unanswered silent) implements SessionRun.Sink<SessionResult> {
        @Override
        public void take(InputFile input, SessionResult result) throws IOException {
            results.session(result);
            silent.look(result);
        }
    }

    private static Optional<Path> chartFolder(Arguments arguments) throws UsageException, IOException {
        String folder = arguments.value(CHARTS);
        return folder == null ? Optional.empty() : Optional.of(OutputFolder.create(CHARTS, folder));
    }
}
