package org.holdtrace.command;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import org.holdtrace.estimate.EstimateOptions;
import org.holdtrace.estimate.HoldTestResult;
import org.holdtrace.session.TestSetup;
import org.holdtrace.trace.HoldTest;
import org.holdtrace.trace.Trace;

/** The way from a file to results, one method a step; commands are handed it, so that tests can hand them another. */
interface Steps {
    /** Reads a session or a trace. */
    Recording read(InputFile input) throws IOException;

    /** Reads a setup. */
    TestSetup readSetup(Path file) throws IOException;

    /** Finds the hold tests of a trace. */
    List<HoldTest> segment(Trace trace);

    /** Estimates one hold test. */
    HoldTestResult estimate(Trace trace, HoldTest test, TestSetup setup, EstimateOptions options);

    /** Draws one hold test. */
    void draw(Path svg, InputFile input, Trace trace, TestSetup setup, HoldTestResult result) throws IOException;

    /** Carries a rig's recipe out and writes the session or trace, replacing what is there. */
    void simulate(Path rigFile, Path out) throws IOException;

    /** Whether a file is a session that was simulated, and so can be made again. */
    boolean isSimulated(Path file);

    /**
     * What a file holds.
     *
     * @param trace its samples
     * @param setup the setup recorded with them; unknown for a trace
     * @param notes a sentence for each stretch that was damaged and is missing, and each column that was not used
     */
    record Recording(Trace trace, TestSetup setup, List<String> notes) {
        public Recording {
            notes = List.copyOf(notes);
        }
    }
}
