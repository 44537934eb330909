package org.holdtrace.command;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import org.holdtrace.estimate.EstimateOptions;
import org.holdtrace.estimate.HoldTestResult;
import org.holdtrace.library.InputFile;
import org.holdtrace.library.Recording;
import org.holdtrace.session.TestSetup;
import org.holdtrace.trace.HoldTest;
import org.holdtrace.trace.Trace;

/** The way from a file to results, one method a step; commands are handed it, so that tests can hand them another. */
interface Steps {
    /** Reads a session or a trace. */
    Recording read(InputFile input) throws IOException;

    /** The setup that counts for {@code input} unless another is asked for: the one beside it, else the one inside. */
    TestSetup setupOf(InputFile input, Recording recording) throws IOException;

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

    /** Whether a file was simulated, and so can be made again. */
    boolean isSimulated(Path file);
}
