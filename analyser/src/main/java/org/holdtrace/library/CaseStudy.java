package org.holdtrace.library;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.holdtrace.estimate.EstimateOptions;
import org.holdtrace.estimate.HoldTestEstimator;
import org.holdtrace.estimate.HoldTestResult;
import org.holdtrace.judge.CaseFile;
import org.holdtrace.judge.CaseFindings;
import org.holdtrace.judge.CaseJudge;
import org.holdtrace.judge.CaseReader;
import org.holdtrace.judge.CaseTest;
import org.holdtrace.judge.MeasuredTest;
import org.holdtrace.quantity.Quantity;
import org.holdtrace.session.InputException;
import org.holdtrace.session.TestSetup;
import org.holdtrace.trace.HoldTest;
import org.holdtrace.trace.TraceSegmenter;

/**
 * A case file with its sessions, analysed and judged.
 *
 * @param findings what can be said
 * @param sources the sessions its tests were taken from, in the order of the tests that could be read
 * @param refused a sentence for each test whose session could not be read
 */
public record CaseStudy(CaseFindings findings, List<Source> sources, List<String> refused) {
    public CaseStudy {
        sources = List.copyOf(sources);
        refused = List.copyOf(refused);
    }

    /** The session of a test: where it is and what is in it. */
    public record Source(CaseTest test, InputFile input, Recording recording, TestSetup setup) {}

    /**
     * Reads a case and the sessions it names, which stand relative to it, and judges it.
     *
     * @throws IOException if the case file or its line check cannot be read; a test's session that cannot is refused and
     *     the others go on
     */
    public static CaseStudy of(Path caseFile) throws IOException {
        return new Reader(caseFile, CaseReader.read(caseFile)).study();
    }

    private static final class Reader {
        private final Path caseFile;
        private final CaseFile file;
        private final Map<Path, Recording> recordings = new HashMap<>();

        Reader(Path caseFile, CaseFile file) {
            this.caseFile = caseFile;
            this.file = file;
        }

        CaseStudy study() throws IOException {
            Optional<HoldTestResult> lineCheck = lineCheck();
            List<MeasuredTest> measured = new ArrayList<>();
            List<Source> sources = new ArrayList<>();
            List<String> refused = new ArrayList<>();
            for (CaseTest test : file.tests()) {
                InputFile input = input(test.file());
                try {
                    Recording recording = recording(input);
                    TestSetup setup = Recordings.setupOf(input, recording);
                    measured.add(measured(test, recording, setup, lineCheck));
                    sources.add(new Source(test, input, recording, setup));
                } catch (IOException e) {
                    refused.add(Failures.sentence(test.file(), e));
                }
            }
            return new CaseStudy(CaseJudge.judge(file, measured), sources, refused);
        }

        private MeasuredTest measured(
                CaseTest test, Recording recording, TestSetup setup, Optional<HoldTestResult> lineCheck)
                throws InputException {
            List<HoldTest> found = TraceSegmenter.segment(recording.trace());
            if (test.number() < 1 || test.number() > found.size()) {
                throw new InputException(
                        test.file(),
                        "",
                        "no hold test number " + test.number(),
                        "a number from 1 to " + found.size() + ", the hold tests in it");
            }
            HoldTest holdTest = found.get(test.number() - 1);
            EstimateOptions options =
                    new EstimateOptions(OptionalDouble.of(file.referencePa()), file.referenceTemperatureK(), lineCheck);
            HoldTestResult result = HoldTestEstimator.estimate(recording.trace(), holdTest, setup, options);
            Optional<Quantity> load = file.complaint().loadPressurePa();
            Optional<HoldTestResult> atLoad = load.isEmpty()
                    ? Optional.empty()
                    : Optional.of(HoldTestEstimator.estimate(
                            recording.trace(),
                            holdTest,
                            setup,
                            new EstimateOptions(
                                    OptionalDouble.of(load.get().value()),
                                    file.complaint().oilTemperatureK(),
                                    lineCheck)));
            return new MeasuredTest(test, setup, result, atLoad);
        }

        private Optional<HoldTestResult> lineCheck() throws IOException {
            Optional<String> name = file.testLine().lineCheck();
            if (name.isEmpty()) {
                return Optional.empty();
            }
            InputFile input = input(name.get());
            Recording recording = recording(input);
            List<HoldTest> found = TraceSegmenter.segment(recording.trace());
            if (found.size() != 1) {
                throw new InputException(
                        name.get(), "", found.size() + " hold tests", "exactly one, of the test line alone");
            }
            HoldTestResult result = HoldTestEstimator.estimate(
                    recording.trace(), found.get(0), Recordings.setupOf(input, recording), EstimateOptions.none());
            if (result.leak().isEmpty()) {
                throw new InputException(name.get(), "", "a hold test that gives no leak rate", "one that does");
            }
            return Optional.of(result);
        }

        private InputFile input(String name) {
            Path path = caseFile.toAbsolutePath().resolveSibling(name).normalize();
            return new InputFile(path, InputFile.stemOf(path));
        }

        private Recording recording(InputFile input) throws IOException {
            Recording known = recordings.get(input.path());
            if (known == null) {
                known = Recordings.read(input);
                recordings.put(input.path(), known);
            }
            return known;
        }
    }
}
