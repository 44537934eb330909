package org.holdtrace.accuracy;

import org.holdtrace.rig.Truth;
import org.holdtrace.session.TestSetup;
import org.holdtrace.trace.Trace;

/**
 * A recording with its setup, and which of its hold tests is judged.
 *
 * @param index its number in the corpus
 * @param family what is tested
 * @param inputs what the setup states
 * @param truth what really was
 * @param setup what the analyser is told
 * @param judged index of the hold test in the truth
 * @param samples length of the recording
 */
record SimulatedCase(
        int index, Family family, KnownInputs inputs, Truth truth, TestSetup setup, int judged, int samples) {
    /** The case with its samples, which are let go once it has been scored. */
    record Recorded(SimulatedCase test, Trace trace) {}

    Truth.Test test() {
        return truth.tests().get(judged);
    }

    /** Whether the recording holds the pump-up of the judged test. */
    boolean showsPumping() {
        return judged > 0 || !truth.rig().tests().get(0).startsPumpedUp();
    }
}
