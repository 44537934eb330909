package org.holdtrace.trace;

import java.util.List;

/** Finds the hold tests of a whole trace. */
public final class TraceSegmenter {
    private TraceSegmenter() {}

    /** The hold tests of {@code trace} in order of time; none where there is nothing but rest. */
    public static List<HoldTest> segment(Trace trace) {
        PhaseDetector detector = new PhaseDetector();
        for (int i = 0; i < trace.size(); i++) {
            detector.accept(trace.timeS(i), trace.pressurePa(i));
        }
        return detector.finish();
    }
}
