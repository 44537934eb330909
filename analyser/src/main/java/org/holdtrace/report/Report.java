package org.holdtrace.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.holdtrace.estimate.EstimateOptions;
import org.holdtrace.estimate.HoldTestResult;
import org.holdtrace.judge.CaseFindings;
import org.holdtrace.wording.ShownUnits;

/**
 * Everything a report says, before it is set.
 *
 * @param recordings in the order they are reported; at least one
 * @param judged what the tests together say of a machine; empty where they are no case
 * @param unusable inputs that were given and gave nothing, in the order they were given
 * @param lineCheck the recording of the test line alone whose leak was taken off, and the setup beside it; empty where
 *     there was none
 * @param asked what was asked beyond the setups
 * @param paper what it is set for
 * @param units what it is shown in
 * @param version the program's version
 */
public record Report(
        List<Examined> recordings,
        Optional<Judged> judged,
        List<Unusable> unusable,
        List<FileProof> lineCheck,
        EstimateOptions asked,
        Paper paper,
        ShownUnits units,
        String version) {
    public Report {
        recordings = List.copyOf(recordings);
        unusable = List.copyOf(unusable);
        lineCheck = List.copyOf(lineCheck);
    }

    /** A case: what follows from its tests, and its file. */
    public record Judged(CaseFindings findings, FileProof file) {}

    /** A hold test and the recording it is in. */
    record Test(Examined of, HoldTestResult result) {}

    /** Every hold test, in order. */
    List<Test> tests() {
        List<Test> tests = new ArrayList<>();
        for (Examined recording : recordings) {
            for (HoldTestResult result : recording.results()) {
                tests.add(new Test(recording, result));
            }
        }
        return tests;
    }

    /** Whether any of it was computed rather than measured. */
    boolean simulated() {
        return recordings.stream().anyMatch(Examined::simulated);
    }
}
