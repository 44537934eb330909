package org.holdtrace.library;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.holdtrace.estimate.EstimateOptions;
import org.holdtrace.estimate.HoldTestResult;
import org.holdtrace.judge.CaseFile;
import org.holdtrace.judge.CaseFindings;
import org.holdtrace.judge.CaseJudge;
import org.holdtrace.judge.CaseReader;
import org.holdtrace.judge.CaseTest;
import org.holdtrace.judge.Complaint;
import org.holdtrace.judge.MeasuredTest;
import org.holdtrace.quantity.Quantity;
import org.holdtrace.session.InputException;
import org.holdtrace.wording.ShownUnits;

/**
 * A case file with its sessions, which stand relative to it: reads the case, has its sessions estimated one by one, and
 * judges what came of them.
 */
public final class CaseStudy {
    /** How the names of case files end. */
    public static final String ENDING = ".case.json";

    private final CaseFile file;
    private final Estimating estimating;
    private final Optional<InputFile> lineCheckFile;
    private final Optional<HoldTestResult> lineCheck;
    private final Map<InputFile, List<CaseTest>> tests = new LinkedHashMap<>();

    /** The way from an input to the results of its hold tests. */
    public interface Estimating {
        /** Reads {@code input} and estimates every hold test in it. */
        Estimated estimate(InputFile input, EstimateOptions options) throws IOException;
    }

    /**
     * A session of the case.
     *
     * @param input where it is
     * @param estimated what is in it and what came of it, at the pressure and temperature of the case
     * @param tests the tests of the case that were taken from it
     */
    public record Source(InputFile input, Estimated estimated, List<MeasuredTest> tests) {
        public Source {
            tests = List.copyOf(tests);
        }
    }

    private CaseStudy(Path caseFile, CaseFile file, Estimating estimating) throws IOException {
        this.file = file;
        this.estimating = estimating;
        for (CaseTest test : file.tests()) {
            tests.computeIfAbsent(beside(caseFile, test.file()), key -> new ArrayList<>())
                    .add(test);
        }
        lineCheckFile = file.testLine().lineCheck().map(name -> beside(caseFile, name));
        lineCheck = lineCheckFile.isEmpty()
                ? Optional.empty()
                : Optional.of(LineCheck.of(
                        lineCheckFile.get().path().toString(),
                        estimating
                                .estimate(lineCheckFile.get(), EstimateOptions.none())
                                .results()));
    }

    /**
     * Reads a case and estimates its line check.
     *
     * @throws IOException if one of them cannot be read, an {@link InputException} if what is in it cannot be used
     */
    public static CaseStudy open(Path caseFile, Estimating estimating) throws IOException {
        return new CaseStudy(caseFile, CaseReader.read(caseFile), estimating);
    }

    private static InputFile beside(Path caseFile, String name) {
        Path path = caseFile.resolveSibling(name).normalize();
        return new InputFile(path, InputFile.stemOf(path));
    }

    /** The case as it was read. */
    public CaseFile file() {
        return file;
    }

    /** The sessions its tests were taken from, in the order of the tests. */
    public List<InputFile> inputs() {
        return List.copyOf(tests.keySet());
    }

    /** The session of the test line alone, where there is one. */
    public Optional<InputFile> lineCheckFile() {
        return lineCheckFile;
    }

    /** How the tests of the case are estimated: stated at its pressure and temperature, the line's own leak taken off. */
    public EstimateOptions options() {
        return new EstimateOptions(OptionalDouble.of(file.referencePa()), file.referenceTemperatureK(), lineCheck);
    }

    /** Has one of {@link #inputs} estimated. Several threads may do that at once. */
    public Source examine(InputFile input) throws IOException {
        Estimated stated = estimating.estimate(input, options());
        Complaint complaint = file.complaint();
        Optional<Estimated> atLoad = Optional.empty();
        if (complaint.loadPressurePa().isPresent()) {
            EstimateOptions load = new EstimateOptions(
                    OptionalDouble.of(
                            complaint.loadPressurePa().map(Quantity::value).get()),
                    complaint.oilTemperatureK(),
                    lineCheck);
            atLoad = Optional.of(load.equals(options()) ? stated : estimating.estimate(input, load));
        }
        List<MeasuredTest> measured = new ArrayList<>();
        for (CaseTest test : tests.get(input)) {
            int count = stated.results().size();
            if (test.number() < 1 || test.number() > count) {
                throw new InputException(
                        input.path().toString(),
                        "",
                        count == 0
                                ? "no hold test"
                                : "no hold test number " + test.number() + ", which test \"" + test.name()
                                        + "\" asks for",
                        count == 0
                                ? "a pump-up and pressure held after it, or a plateau"
                                : "a number from 1 to " + count + ", the hold tests in it");
            }
            int index = test.number() - 1;
            measured.add(new MeasuredTest(
                    test,
                    stated.setup(),
                    stated.results().get(index),
                    atLoad.map(estimated -> estimated.results().get(index))));
        }
        return new Source(input, stated, measured);
    }

    /** Judges the case by the sessions that could be read, in the order of its tests; sentences in these units. */
    public CaseFindings judge(List<Source> sources, ShownUnits units) {
        List<MeasuredTest> measured = new ArrayList<>();
        for (CaseTest test : file.tests()) {
            for (Source source : sources) {
                source.tests().stream().filter(each -> each.test().equals(test)).forEach(measured::add);
            }
        }
        return CaseJudge.judge(file, measured, units);
    }
}
