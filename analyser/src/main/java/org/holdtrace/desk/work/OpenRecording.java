package org.holdtrace.desk.work;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.holdtrace.chart.TracePyramid;
import org.holdtrace.estimate.EstimateOptions;
import org.holdtrace.estimate.HoldTestEstimator;
import org.holdtrace.estimate.HoldTestResult;
import org.holdtrace.library.Estimated;
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
 * @param isDraft whether it is described by a draft, since the files beside it could not be written
 * @param found its hold tests, with boundaries as found
 * @param described what a person says of it
 * @param asked what results are asked for beyond the setup
 * @param setup the setup that counts
 * @param tests its hold tests, with boundaries as found or as moved by hand
 * @param results one for each of {@code tests}, in their order
 */
public record OpenRecording(
        InputFile input,
        Recording recording,
        TracePyramid pyramid,
        Beside beside,
        boolean isDraft,
        List<HoldTest> found,
        Described described,
        EstimateOptions asked,
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
    public static OpenRecording read(InputFile input, EstimateOptions asked) throws IOException {
        return read(input, asked, Optional.empty());
    }

    /** The same; where there is a draft of what ought to stand beside it, that counts. */
    public static OpenRecording read(InputFile input, EstimateOptions asked, Optional<Drafts> drafts)
            throws IOException {
        Recording recording = Recordings.read(input);
        if (recording.trace().size() == 0) {
            throw new InputException(input.path().toString(), "", "no samples", "a recording with samples in it");
        }
        Beside beside = Beside.read(input);
        Optional<Beside> draft = drafts.isPresent() ? drafts.get().read(input) : Optional.empty();
        List<HoldTest> found = TraceSegmenter.segment(recording.trace());
        Described described = draft.orElse(beside).described(input, recording);
        return new OpenRecording(
                        input,
                        recording,
                        new TracePyramid(recording.trace()),
                        beside,
                        draft.isPresent(),
                        found,
                        described,
                        asked,
                        described.sheet().setup(),
                        List.of(),
                        List.of())
                .estimated(described, asked);
    }

    private OpenRecording estimated(Described next, EstimateOptions wish) {
        TestSetup now = next.sheet().setup();
        List<HoldTest> moved = next.notes().applied(recording.trace(), found);
        List<HoldTestResult> estimates = new ArrayList<>();
        for (HoldTest test : moved) {
            estimates.add(next.notes().noted(HoldTestEstimator.estimate(recording.trace(), test, now, wish)));
        }
        return new OpenRecording(input, recording, pyramid, beside, isDraft, found, next, wish, now, moved, estimates);
    }

    /** The same recording, described or asked about otherwise. As long as an estimate takes: not on the event thread. */
    OpenRecording with(Described next, EstimateOptions wish) {
        boolean sameResults = next.sheet().equals(described.sheet())
                && next.notes().moved().equals(described.notes().moved())
                && wish.equals(asked);
        return sameResults
                ? new OpenRecording(
                        input, recording, pyramid, beside, isDraft, found, next, wish, setup, tests, results)
                : estimated(next, wish);
    }

    /** The same recording with what stands beside it now. Not on the event thread. */
    OpenRecording readAgain() throws IOException {
        Beside now = Beside.read(input);
        return new OpenRecording(input, recording, pyramid, now, false, found, described, asked, setup, tests, results)
                .estimated(now.described(input, recording), asked);
    }

    /** What came of it, as the commands have it. */
    public Estimated estimated() {
        return new Estimated(recording, setup, results);
    }

    /** What it is known by: no two recordings on the desk share it. */
    public Path path() {
        return input.path();
    }
}
