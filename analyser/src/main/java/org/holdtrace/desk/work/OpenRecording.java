package org.holdtrace.desk.work;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.holdtrace.desk.view.TracePyramid;
import org.holdtrace.estimate.EstimateOptions;
import org.holdtrace.estimate.HoldTestEstimator;
import org.holdtrace.estimate.HoldTestResult;
import org.holdtrace.library.InputFile;
import org.holdtrace.library.Recording;
import org.holdtrace.library.Recordings;
import org.holdtrace.session.InputException;
import org.holdtrace.session.TestSetup;
import org.holdtrace.trace.HoldTest;
import org.holdtrace.trace.TraceSegmenter;

/**
 * A recording on the desk with all that came of it. Immutable: a change of the setup or of a boundary makes another.
 *
 * @param input the file
 * @param recording what the file holds
 * @param pyramid its trace, made ready to be drawn
 * @param setup the setup that counts
 * @param tests its hold tests, with boundaries as found or as moved by hand
 * @param results one for each of {@code tests}, in their order
 */
public record OpenRecording(
        InputFile input,
        Recording recording,
        TracePyramid pyramid,
        TestSetup setup,
        List<HoldTest> tests,
        List<HoldTestResult> results) {
    public OpenRecording {
        tests = List.copyOf(tests);
        results = List.copyOf(results);
    }

    /**
     * Reads a recording and its setup, finds its hold tests and estimates each, the way the command line does. Takes as
     * long as that takes: not on the event thread.
     *
     * @throws IOException if something cannot be read; an {@link InputException} if it cannot be understood
     */
    public static OpenRecording read(InputFile input) throws IOException {
        Recording recording = Recordings.read(input);
        if (recording.trace().size() == 0) {
            throw new InputException(input.path().toString(), "", "no samples", "a recording with samples in it");
        }
        TestSetup setup = Recordings.setupOf(input, recording);
        List<HoldTest> tests = TraceSegmenter.segment(recording.trace());
        return new OpenRecording(
                input, recording, new TracePyramid(recording.trace()), setup, tests, estimate(recording, setup, tests));
    }

    /** The same recording with another setup or other boundaries. As long as an estimate takes: not on the event thread. */
    public OpenRecording with(TestSetup anotherSetup, List<HoldTest> otherTests) {
        return new OpenRecording(
                input, recording, pyramid, anotherSetup, otherTests, estimate(recording, anotherSetup, otherTests));
    }

    /** What it is known by: no two recordings on the desk share it. */
    public Path path() {
        return input.path();
    }

    /** The result of each hold test. As long as that takes: not on the event thread. */
    public static List<HoldTestResult> estimate(Recording recording, TestSetup setup, List<HoldTest> tests) {
        List<HoldTestResult> results = new ArrayList<>();
        for (HoldTest test : tests) {
            results.add(HoldTestEstimator.estimate(recording.trace(), test, setup, EstimateOptions.none()));
        }
        return results;
    }
}
