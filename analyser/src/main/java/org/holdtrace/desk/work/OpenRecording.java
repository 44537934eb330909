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
 * @param beside what stood in the files beside it when they were read
 * @param found its hold tests, with boundaries as found
 * @param described what a person says of it
 * @param setup the setup that counts
 * @param tests its hold tests, with boundaries as found or as moved by hand
 * @param results one for each of {@code tests}, in their order
 */
public record OpenRecording(
        InputFile input,
        Recording recording,
        TracePyramid pyramid,
        Beside beside,
        List<HoldTest> found,
        Described described,
        TestSetup setup,
        List<HoldTest> tests,
        List<HoldTestResult> results) {
    public OpenRecording {
        found = List.copyOf(found);
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
        return of(input, Recordings.read(input));
    }

    /** The same for a recording that was read already. */
    public static OpenRecording of(InputFile input, Recording recording) throws IOException {
        if (recording.trace().size() == 0) {
            throw new InputException(input.path().toString(), "", "no samples", "a recording with samples in it");
        }
        Beside beside = Beside.read(input);
        Described described = beside.described(input, recording);
        return estimated(
                input,
                recording,
                new TracePyramid(recording.trace()),
                beside,
                TraceSegmenter.segment(recording.trace()),
                described);
    }

    private static OpenRecording estimated(
            InputFile input,
            Recording recording,
            TracePyramid pyramid,
            Beside beside,
            List<HoldTest> found,
            Described described) {
        TestSetup setup = described.sheet().setup();
        List<HoldTest> tests = described.notes().applied(recording.trace(), found);
        List<HoldTestResult> results = new ArrayList<>();
        for (HoldTest test : tests) {
            results.add(described
                    .notes()
                    .noted(HoldTestEstimator.estimate(recording.trace(), test, setup, EstimateOptions.none())));
        }
        return new OpenRecording(input, recording, pyramid, beside, found, described, setup, tests, results);
    }

    /** The same recording, described otherwise. As long as an estimate takes: not on the event thread. */
    OpenRecording with(Described next) {
        return estimated(input, recording, pyramid, beside, found, next);
    }

    /** The same recording with what stands beside it now. Not on the event thread. */
    OpenRecording readAgain() throws IOException {
        Beside now = Beside.read(input);
        return estimated(input, recording, pyramid, now, found, now.described(input, recording));
    }

    /** What it is known by: no two recordings on the desk share it. */
    public Path path() {
        return input.path();
    }
}
