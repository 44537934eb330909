package org.holdtrace.command;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.holdtrace.judge.CaseFindings;
import org.holdtrace.judge.PlannedTest;
import org.holdtrace.library.CaseStudy;
import org.holdtrace.library.Failures;
import org.holdtrace.library.InputFile;
import org.holdtrace.report.Paper;
import org.holdtrace.report.TestSheet;
import org.holdtrace.session.SetupWriter;
import org.holdtrace.wording.ShownUnits;

/** {@code case}: from several hold tests of one machine to its suspects, the next test worth doing and the findings. */
final class CaseCommand implements Command {
    private static final String JSON = "--json";
    private static final String PLAN = "--plan";
    private static final String CHOOSE = "--choose";
    private static final String PAPER = "--paper";

    private final Steps steps;

    CaseCommand(Steps steps) {
        this.steps = steps;
    }

    @Override
    public String name() {
        return "case";
    }

    @Override
    public String summary() {
        return "from several hold tests of one machine to its suspects and the next test";
    }

    @Override
    public String synopsis() {
        return "FILE.case.json [options]";
    }

    @Override
    public List<String> description() {
        return List.of(
                "Reads a machine, what is complained of, its circuit and the hold tests made so far, and says how",
                "probable it is for every part to be over its limit, what each test cleared, whether the leak found",
                "explains the drift, and which test to do next. The sessions stand relative to FILE.case.json.",
                "A case is decided when every part is tested and either over its limit or cleared, not before.",
                "How a case file is written: docs/case.md.");
    }

    @Override
    public List<Option> options() {
        return List.of(
                Option.flag(JSON, "print JSON instead of text"),
                Option.valued(
                        PLAN,
                        "DIR",
                        "write the next test into DIR: test-N.pdf is the sheet for the machine,",
                        "test-N.setup.json the plan a logger takes"),
                Option.valued(CHOOSE, "NUMBER", "plan this one of the tests proposed; 1, the best, where not given"),
                Option.valued(PAPER, "a4|letter", "the paper of the sheet; a4 where not given"),
                ReportCommand.UNITS_OPTION);
    }

    @Override
    public int run(Arguments arguments, Streams streams) throws UsageException, IOException {
        Path caseFile = operand(arguments);
        int choice = choice(arguments);
        Paper paper = ReportCommand.paper(arguments.value(PAPER));
        ShownUnits units = ReportCommand.units(arguments);
        Optional<Path> plans = arguments.value(PLAN) == null
                ? Optional.empty()
                : Optional.of(OutputFolder.create(PLAN, arguments.value(PLAN)));
        CaseStudy study;
        try {
            study = open(caseFile, steps);
        } catch (IOException e) {
            streams.problem(Failures.sentence(caseFile.toString(), e));
            return ExitCode.SOME_REFUSED;
        }
        Examined examined = Examined.of(study, streams);
        CaseFindings findings = study.judge(examined.sources, units);
        List<String> refused = List.copyOf(examined.refused.values());
        if (arguments.has(JSON)) {
            CaseJson.write(caseFile, findings, refused, streams.out());
        } else {
            streams.out().print(CaseText.of(caseFile, findings, refused, units));
        }
        streams.out().flush();
        if (plans.isPresent()) {
            plan(plans.get(), findings, choice, new Shown(paper, units), streams);
        }
        return examined.unanswered == 0 ? ExitCode.DONE : ExitCode.SOME_REFUSED;
    }

    /** A case, its sessions estimated the way every command does. */
    static CaseStudy open(Path caseFile, Steps steps) throws IOException {
        return CaseStudy.open(
                caseFile, (input, options) -> new EstimateArguments(Optional.empty(), options).estimate(input, steps));
    }

    /** The sessions of a case that could be read, and what is wrong with the others. */
    static final class Examined implements SessionRun.Sink<CaseStudy.Source> {
        final List<CaseStudy.Source> sources = new ArrayList<>();
        final Map<InputFile, String> refused = new LinkedHashMap<>();
        private int unanswered;

        /** Estimates them all; what failed or gave no answer is named on the error stream. */
        static Examined of(CaseStudy study, Streams streams) throws IOException {
            Examined examined = new Examined();
            examined.unanswered = SessionRun.forEach(study.inputs(), study::examine, examined, streams);
            for (CaseStudy.Source source : examined.sources) {
                source.tests().stream().filter(test -> test.leak().isEmpty()).forEach(test -> {
                    streams.problem(source.input().path() + ", hold test "
                            + test.test().number() + ": no leak rate; neither its hold nor a plateau could be"
                            + " used");
                    examined.unanswered++;
                });
            }
            return examined;
        }

        @Override
        public void take(InputFile input, CaseStudy.Source source) {
            sources.add(source);
        }

        @Override
        public void refused(InputFile input, String sentence) {
            refused.put(input, sentence);
        }

        int unanswered() {
            return unanswered;
        }
    }

    /** What a sheet is set for and shown in. */
    private record Shown(Paper paper, ShownUnits units) {}

    private static void plan(Path folder, CaseFindings findings, int choice, Shown shown, Streams streams)
            throws UsageException, IOException {
        if (findings.next().isEmpty()) {
            streams.problem(PLAN + ": no test is left to plan, nothing was written");
            return;
        }
        if (choice > findings.next().size()) {
            throw new UsageException(CHOOSE + ": " + choice + " is not among the tests proposed; expected 1 to "
                    + findings.next().size());
        }
        PlannedTest planned = findings.next().get(choice - 1);
        int number = findings.caseFile().tests().size() + 1;
        Path sheet = folder.resolve("test-" + number + ".pdf");
        Path setup = folder.resolve("test-" + number + InputFile.SETUP_ENDING);
        try {
            Files.write(
                    sheet,
                    TestSheet.pdf(findings.caseFile(), planned, number, shown.paper(), shown.units(), Main.program()));
            SetupWriter.write(planned.plan(), setup);
        } catch (InternalError | LinkageError e) {
            throw FileSteps.noFonts(e, "or leave " + PLAN + " out");
        } catch (IOException e) {
            throw new UsageException(PLAN + ": " + Failures.sentence(folder.toString(), e));
        }
        streams.err().println("Written: " + sheet + " and " + setup);
    }

    private static int choice(Arguments arguments) throws UsageException {
        String text = arguments.value(CHOOSE);
        if (text == null) {
            return 1;
        }
        if (arguments.value(PLAN) == null) {
            throw new UsageException(CHOOSE + " says which test to plan, and goes with " + PLAN);
        }
        try {
            int choice = Integer.parseInt(text);
            if (choice >= 1) {
                return choice;
            }
        } catch (NumberFormatException e) {
            // said below
        }
        throw new UsageException(CHOOSE + ": \"" + text + "\" is no number of a test; expected 1, 2, …");
    }

    /** The one case file a call names. */
    static Path operand(Arguments arguments) throws UsageException {
        List<String> operands = arguments.operands();
        if (operands.size() != 1) {
            throw new UsageException(
                    "expected exactly one case file (FILE" + CaseStudy.ENDING + "), was given " + operands.size());
        }
        Path file = Inputs.path(operands.get(0));
        if (!Files.isRegularFile(file)) {
            throw new UsageException(file + ": there is no such file");
        }
        return file;
    }
}
