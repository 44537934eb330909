package org.holdtrace.command;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.holdtrace.estimate.HoldTestResult;
import org.holdtrace.judge.MeasuredTest;
import org.holdtrace.library.CaseStudy;
import org.holdtrace.library.Estimated;
import org.holdtrace.library.Failures;
import org.holdtrace.library.InputFile;
import org.holdtrace.library.Recording;
import org.holdtrace.library.WorkNotes;
import org.holdtrace.quantity.QuantityException;
import org.holdtrace.report.Examined;
import org.holdtrace.report.FileProof;
import org.holdtrace.report.HtmlReport;
import org.holdtrace.report.Paper;
import org.holdtrace.report.PdfReport;
import org.holdtrace.report.Report;
import org.holdtrace.report.Unusable;
import org.holdtrace.session.SessionHeader;
import org.holdtrace.wording.ShownUnits;

/** {@code report}: the report a customer gets, as PDF or as one page of HTML. */
final class ReportCommand implements Command {
    private static final String OUT = "--out";
    private static final String PAPER = "--paper";
    private static final String UNITS = "--units";
    static final Option UNITS_OPTION = Option.valued(
            UNITS,
            "UNITS",
            "bar or psi, cm3 or in3, or one of each as in \"psi, in3\"; bar and cm3 where",
            "not given");

    private static final String PDF = ".pdf";
    private static final String HTML = ".html";

    private final Steps steps;

    ReportCommand(Steps steps) {
        this.steps = steps;
    }

    @Override
    public String name() {
        return "report";
    }

    @Override
    public String summary() {
        return "the report a customer gets, as PDF or as one page of HTML";
    }

    @Override
    public String synopsis() {
        return "PATH… --out FILE.pdf [options]";
    }

    @Override
    public List<String> description() {
        return List.of(
                "Takes the same inputs as analyse and finds the same figures. The first page says what was tested and",
                "what came of it; the others show each hold test in full, what was not tested, the method, cautions,",
                "and the SHA-256 of every file it rests on. FILE.html gives the same as one page without other parts.",
                "Of a case (FILE.case.json) it gives complaint, decision, reasons and what was not tested first.",
                "The same input and version give the same bytes. A report that is there already is replaced.");
    }

    @Override
    public List<Option> options() {
        List<Option> options = new ArrayList<>();
        options.add(Option.valued(OUT, "FILE", "where to write it: FILE.pdf (PDF/A-2b) or FILE.html"));
        options.add(Option.valued(PAPER, "a4|letter", "the paper; a4 where not given"));
        options.add(UNITS_OPTION);
        options.addAll(EstimateArguments.OPTIONS);
        return options;
    }

    @Override
    public int run(Arguments arguments, Streams streams) throws UsageException, IOException {
        Path out = out(arguments.required(OUT));
        Paper paper = paper(arguments.value(PAPER));
        ShownUnits units = units(arguments);
        List<String> operands = arguments.operands();
        if (operands.stream().anyMatch(operand -> operand.endsWith(CaseStudy.ENDING))) {
            return ofCase(arguments, out, paper, units, streams);
        }
        Inputs inputs = Inputs.find(operands);
        int unanswered = inputs.name(streams);
        EstimateArguments wishes = EstimateArguments.from(arguments, steps);
        Optional<Path> setupForAll = path(arguments, EstimateArguments.SETUP);
        Collected found = new Collected(new Unanswered(streams));
        for (String problem : inputs.problems()) {
            found.unusable.add(unusable(arguments.operands(), problem));
        }
        unanswered += SessionRun.forEach(inputs.files(), input -> examine(input, wishes, setupForAll), found, streams);
        unanswered += found.silent.count();
        if (found.recordings.isEmpty()) {
            streams.problem("no hold test in any input: no report was written");
            return ExitCode.SOME_REFUSED;
        }
        String version = Main.program();
        write(
                new Report(
                        found.recordings,
                        Optional.empty(),
                        found.unusable,
                        lineCheck(path(arguments, EstimateArguments.LINE_CHECK)),
                        wishes.options(),
                        paper,
                        units,
                        version),
                out);
        return unanswered == 0 ? ExitCode.DONE : ExitCode.SOME_REFUSED;
    }

    private int ofCase(Arguments arguments, Path out, Paper paper, ShownUnits units, Streams streams)
            throws UsageException, IOException {
        if (arguments.operands().size() != 1) {
            throw new UsageException("a case is reported by itself: expected one case file or recordings, not both");
        }
        for (Option option : EstimateArguments.OPTIONS) {
            if (arguments.value(option.name()) != null) {
                throw new UsageException(option.name() + " goes with recordings; a case states its own conditions");
            }
        }
        Path caseFile = CaseCommand.operand(arguments);
        CaseStudy study;
        try {
            study = CaseCommand.open(caseFile, steps);
        } catch (IOException e) {
            streams.problem(Failures.sentence(caseFile.toString(), e));
            return ExitCode.SOME_REFUSED;
        }
        CaseCommand.Examined examined = CaseCommand.Examined.of(study, streams);
        if (examined.sources.isEmpty()) {
            streams.problem("no hold test in this case that could be used: no report was written");
            return ExitCode.SOME_REFUSED;
        }
        List<Examined> recordings = new ArrayList<>();
        for (CaseStudy.Source source : examined.sources) {
            recordings.add(examined(
                    source.input(),
                    source.input().setupBeside(),
                    source.estimated(),
                    source.tests().stream().map(MeasuredTest::result).toList()));
        }
        List<Unusable> unusable = new ArrayList<>();
        examined.refused.forEach((input, sentence) -> unusable.add(new Unusable(
                input.name(),
                Collected.sha256(input.path()),
                without(input.path().toString(), sentence))));
        write(
                new Report(
                        recordings,
                        Optional.of(new Report.Judged(study.judge(examined.sources, units), FileProof.of(caseFile))),
                        unusable,
                        lineCheck(study.lineCheckFile().map(InputFile::path)),
                        study.options(),
                        paper,
                        units,
                        Main.program()),
                out);
        return examined.unanswered() == 0 ? ExitCode.DONE : ExitCode.SOME_REFUSED;
    }

    /** What goes into the report, and what gave nothing. */
    private static final class Collected implements SessionRun.Sink<Examined> {
        private final Unanswered silent;
        private final List<Examined> recordings = new ArrayList<>();
        private final List<Unusable> unusable = new ArrayList<>();

        Collected(Unanswered silent) {
            this.silent = silent;
        }

        @Override
        public void take(InputFile input, Examined examined) {
            silent.look(new SessionResult(input, examined.setup(), examined.results(), List.of(), examined.notes()));
            if (examined.results().isEmpty()) {
                unusable.add(new Unusable(
                        input.name(),
                        Optional.of(examined.file().sha256()),
                        "no hold test in it; expected a pump-up and pressure held after it, or a plateau"));
            } else {
                recordings.add(examined);
            }
        }

        @Override
        public void refused(InputFile input, String sentence) {
            unusable.add(new Unusable(
                    input.name(), sha256(input.path()), without(input.path().toString(), sentence)));
        }

        private static Optional<String> sha256(Path file) {
            try {
                return Optional.of(FileProof.of(file).sha256());
            } catch (IOException e) {
                return Optional.empty(); // the reason beside it says that it cannot be read
            }
        }
    }

    /** The operand a problem begins with, by its name alone: a report says nothing of the folders it was made in. */
    private static Unusable unusable(List<String> operands, String problem) {
        for (String operand : operands) {
            if (problem.startsWith(operand + ": ")) {
                Path name = Path.of(operand).getFileName();
                return new Unusable(
                        name == null ? operand : name.toString(), Optional.empty(), without(operand, problem));
            }
        }
        return new Unusable("", Optional.empty(), problem);
    }

    private static String without(String path, String sentence) {
        return sentence.startsWith(path) ? sentence.substring(path.length()).replaceFirst("^[:,]? ", "") : sentence;
    }

    private static List<FileProof> lineCheck(Optional<Path> recording) throws IOException {
        List<FileProof> proofs = new ArrayList<>();
        if (recording.isPresent()) {
            InputFile input = new InputFile(recording.get(), "");
            proofs.add(FileProof.of(recording.get()));
            proofs.addAll(beside(input, input.setupBeside()));
        }
        return proofs;
    }

    /** The setup a recording was judged with and the notes beside it, as far as they are there. */
    private static List<FileProof> beside(InputFile input, Path setupFile) throws IOException {
        List<FileProof> proofs = new ArrayList<>();
        for (Path file : List.of(setupFile, WorkNotes.fileBeside(input))) {
            if (Files.exists(file)) {
                proofs.add(FileProof.of(file));
            }
        }
        return proofs;
    }

    private Examined examine(InputFile input, EstimateArguments wishes, Optional<Path> setupForAll) throws IOException {
        Estimated found = wishes.estimate(input, steps);
        return examined(input, setupForAll.orElse(input.setupBeside()), found, found.results());
    }

    private Examined examined(InputFile input, Path setupFile, Estimated found, List<HoldTestResult> results)
            throws IOException {
        Recording recording = found.recording();
        return new Examined(
                FileProof.of(input.path()),
                beside(input, setupFile),
                recording.header(),
                recording.header().map(SessionHeader::simulated).orElse(false) || steps.isSimulated(input.path()),
                recording.trace(),
                found.setup(),
                results,
                recording.notes());
    }

    private static Optional<Path> path(Arguments arguments, String option) throws UsageException {
        String value = arguments.value(option);
        return value == null ? Optional.empty() : Optional.of(Inputs.path(value));
    }

    private static void write(Report report, Path out) throws IOException, UsageException {
        byte[] bytes;
        try {
            bytes = out.toString().endsWith(PDF)
                    ? PdfReport.write(report)
                    : HtmlReport.write(report).getBytes(StandardCharsets.UTF_8);
        } catch (InternalError | LinkageError e) {
            throw FileSteps.noFonts(e, "or call analyse for the figures alone");
        }
        Files.write(out, bytes);
    }

    private static Path out(String file) throws UsageException {
        Path out = Inputs.path(file);
        if (!file.endsWith(PDF) && !file.endsWith(HTML)) {
            throw new UsageException(
                    OUT + ": \"" + file + "\" ends in neither .pdf nor .html; expected FILE.pdf or" + " FILE.html");
        }
        Path folder = out.toAbsolutePath().getParent();
        if (folder == null || !Files.isDirectory(folder)) {
            throw new UsageException(
                    OUT + ": there is no folder " + folder + " to write " + out.getFileName() + " into");
        }
        if (Files.isDirectory(out)) {
            throw new UsageException(OUT + ": " + out + " is a folder; expected FILE.pdf or FILE.html");
        }
        return out;
    }

    /** The paper of that name; A4 where none is given. */
    static Paper paper(String name) throws UsageException {
        if (name == null || name.equalsIgnoreCase("a4")) {
            return Paper.A4;
        }
        if (name.equalsIgnoreCase("letter")) {
            return Paper.LETTER;
        }
        throw new UsageException(PAPER + ": \"" + name + "\" is not known; expected a4 or letter");
    }

    /** The units a call asks for; bar and cm³ where it asks for none. */
    static ShownUnits units(Arguments arguments) throws UsageException {
        String text = arguments.value(UNITS);
        try {
            return text == null ? ShownUnits.METRIC : ShownUnits.parse(text);
        } catch (QuantityException e) {
            throw new UsageException(UNITS + ": " + e.found() + "; expected " + e.expected());
        }
    }
}
