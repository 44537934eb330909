package org.holdtrace.command;

import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.holdtrace.library.Estimated;
import org.holdtrace.library.InputFile;
import org.holdtrace.library.Recording;
import org.holdtrace.rig.RigFile;
import org.holdtrace.session.SessionHeader;
import org.holdtrace.session.TraceWriter;
import org.holdtrace.trace.Trace;

/** {@code export}: samples in engineering units and results, for spreadsheets and other programs. */
final class ExportCommand implements Command {
    private static final String OUT = "--out";
    private static final String FORMAT = "--format";
    private static final String REPLACE = "--replace";
    private static final String CSV = "csv";
    private static final String JSON = "json";
    private static final String RESULTS_CSV = "results.csv";
    private static final String EVERYTHING_JSON = "export.json";
    private static final String SAMPLES_ENDING = "-samples.csv";

    private final Steps steps;

    ExportCommand(Steps steps) {
        this.steps = steps;
    }

    /** A session's result together with its samples. */
    private record Exported(SessionResult result, Trace trace, boolean simulated) {
        /** What stands above the samples. */
        List<String> comments() {
            return simulated ? List.of(RigFile.SIMULATED) : List.of();
        }
    }

    @Override
    public String name() {
        return "export";
    }

    @Override
    public String summary() {
        return "samples in engineering units and results, for other programs";
    }

    @Override
    public String synopsis() {
        return "PATH… --out DIR [options]";
    }

    @Override
    public List<String> description() {
        return List.of(
                "Takes the same inputs as analyse and writes into DIR:",
                "  csv   NAME-samples.csv for each session, which analyse reads again as a trace, and results.csv",
                "        with a line for each hold test",
                "  json  export.json: what analyse --json prints, and with each session its samples",
                "Pressures are the transducer's readings, zero error included; what was simulated says so.",
                "Files that are there already are not written over unless --replace says so.");
    }

    @Override
    public List<Option> options() {
        List<Option> options = new ArrayList<>();
        options.add(Option.valued(OUT, "DIR", "where to write; made if it is not there"));
        options.add(Option.valued(FORMAT, "csv|json", "what to write; csv where not given"));
        options.add(Option.flag(REPLACE, "write over files of an earlier export"));
        options.addAll(EstimateArguments.OPTIONS);
        return options;
    }

    @Override
    public int run(Arguments arguments, Streams streams) throws UsageException, IOException {
        String format = arguments.value(FORMAT) == null ? CSV : arguments.value(FORMAT);
        if (!format.equals(CSV) && !format.equals(JSON)) {
            throw new UsageException(FORMAT + ": \"" + format + "\" is not known; expected csv or json");
        }
        Inputs inputs = Inputs.find(arguments.operands());
        Path folder = OutputFolder.create(OUT, arguments.required(OUT));
        List<Path> targets = targets(format, folder, inputs.files());
        if (!arguments.has(REPLACE)) {
            OutputFolder.refuseExisting(targets, REPLACE);
        }
        int unanswered = inputs.name(streams);
        EstimateArguments wishes = EstimateArguments.from(arguments, steps);
        SessionRun.Work<Exported> work = input -> analyse(input, wishes);
        Unanswered silent = new Unanswered(streams);
        unanswered += format.equals(CSV)
                ? csv(inputs.files(), work, folder, silent, streams)
                : json(inputs.files(), work, folder, silent, streams);
        unanswered += silent.count();
        return unanswered == 0 ? ExitCode.DONE : ExitCode.SOME_REFUSED;
    }

    private static List<Path> targets(String format, Path folder, List<InputFile> files) {
        List<Path> targets = new ArrayList<>();
        if (format.equals(JSON)) {
            targets.add(folder.resolve(EVERYTHING_JSON));
            return targets;
        }
        targets.add(folder.resolve(RESULTS_CSV));
        for (InputFile file : files) {
            targets.add(folder.resolve(file.stem() + SAMPLES_ENDING));
        }
        return targets;
    }

    private static int csv(
            List<InputFile> files, SessionRun.Work<Exported> work, Path folder, Unanswered silent, Streams streams)
            throws IOException {
        try (ResultCsv results = new ResultCsv(folder.resolve(RESULTS_CSV))) {
            return SessionRun.forEach(
                    files,
                    work,
                    (input, exported) -> {
                        TraceWriter.write(
                                exported.trace(), folder.resolve(input.stem() + SAMPLES_ENDING), exported.comments());
                        results.session(exported.result());
                        silent.look(exported.result());
                    },
                    streams);
        }
    }

    private static int json(
            List<InputFile> files, SessionRun.Work<Exported> work, Path folder, Unanswered silent, Streams streams)
            throws IOException {
        try (OutputStream out = new BufferedOutputStream(Files.newOutputStream(folder.resolve(EVERYTHING_JSON)));
                ResultJson json = new ResultJson(out)) {
            return SessionRun.forEach(
                    files,
                    work,
                    (input, exported) -> {
                        json.session(exported.result(), exported.trace());
                        silent.look(exported.result());
                    },
                    streams);
        }
    }

    private Exported analyse(InputFile input, EstimateArguments wishes) throws IOException {
        Estimated found = wishes.estimate(input, steps);
        Recording recording = found.recording();
        boolean simulated =
                recording.header().map(SessionHeader::simulated).orElse(false) || steps.isSimulated(input.path());
        List<String> notes = new ArrayList<>(simulated ? List.of(RigFile.SIMULATED) : List.of());
        notes.addAll(recording.notes());
        SessionResult result = new SessionResult(input, found.setup(), found.results(), List.of(), notes);
        return new Exported(result, recording.trace(), simulated);
    }
}
