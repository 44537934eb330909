package org.holdtrace.acquire;

import org.holdtrace.trace.HoldTest;
import org.holdtrace.trace.Phase;
import org.holdtrace.trace.PhaseDetector;
import org.holdtrace.trace.PushCount;
import org.holdtrace.trace.Stroke;

/**
 * Marks phases and strokes while they happen, with the detector that the analysis uses, and has {@link LiveLeak} follow
 * them. Times are s on whatever clock the samples bear. One thread.
 */
public final class LiveMarks {
    /** Hears of marks. */
    public interface Listener {
        /** {@code phase} began at {@code sinceS}, in hold test {@code holdTest}, counted from 1. */
        void phase(int holdTest, Phase phase, double sinceS);

        /** A stroke began: pressure rises. It may yet prove to be none. */
        void rising(double sinceS);

        /** A stroke is over; one that begins when the last one began is that one, which has gone on. */
        void stroke(Stroke stroke);

        /** A hold test is over; its last phase has told so already. */
        default void holdTestOver() {}
    }

    /** Zero is the mean of the line at rest over about this time, s. */
    private static final double ZERO_S = 3;

    private final Listener listener;
    private final LiveLeak leak;
    private final PhaseDetector detector;
    private final PushCount pushes = new PushCount();
    private int testsOver;
    private boolean plateau;
    private double zeroPa = Double.NaN;
    private double timeS = Double.NaN;

    /** @param stepPa by what readings change at the least, Pa: the converter's step */
    public LiveMarks(LiveLeak leak, double stepPa, Listener listener) {
        this.leak = leak;
        this.listener = listener;
        detector = new PhaseDetector(new Detected(), stepPa);
    }

    /** Takes a sample: time, s, and reading, Pa. */
    public void accept(double atS, double readingPa) {
        pushes.accept(atS, readingPa);
        detector.accept(atS, readingPa);
        Phase phase = detector.phase();
        if (phase == Phase.REST) {
            double share = Double.isNaN(zeroPa) ? 1 : Math.min(1, Math.max(0, atS - timeS) / ZERO_S);
            zeroPa = Double.isNaN(zeroPa) ? readingPa : zeroPa + share * (readingPa - zeroPa);
        }
        timeS = atS;
        leak.accept(atS, readingPa - zeroPa(), phase, detector.noisePa());
    }

    private final class Detected implements PhaseDetector.Listener {
        @Override
        public void phaseChanged(Phase phase, double sinceS) {
            if (phase == Phase.PUMP_UP && pushes.count() == 0) {
                leak.newTest();
            }
            if (phase == Phase.REST) {
                pushes.begin();
            }
            if (phase == Phase.BLEED_OFF) {
                leak.letOff();
            }
            plateau = false;
            listener.phase(testsOver + 1, phase, sinceS);
        }

        @Override
        public void strokeStarted(double startS) {
            listener.rising(startS);
        }

        @Override
        public void strokeEnded(Stroke stroke, double startPa, double endPa) {
            PushCount.Push push = pushes.ended(stroke, startPa, endPa, zeroPa(), detector.noisePa());
            leak.stroke(push.stroke(), push.risePa(), endPa - zeroPa(), push.goesOn());
            listener.stroke(push.stroke());
        }

        @Override
        public void plateauBegun(double sinceS) {
            plateau = true;
            leak.plateau(sinceS);
            listener.phase(testsOver + 1, Phase.PLATEAU, sinceS);
        }

        @Override
        public void holdTestFinished(HoldTest test) {
            testsOver++;
            pushes.begin();
            listener.holdTestOver();
        }
    }

    /** What the line is doing. */
    public Phase phase() {
        return plateau && detector.phase() == Phase.PUMP_UP ? Phase.PLATEAU : detector.phase();
    }

    /** Since when, s; NaN before the first samples. */
    public double phaseSinceS() {
        return detector.phaseSinceS();
    }

    /** Strokes of the hold test at hand. */
    public int strokes() {
        return pushes.count();
    }

    /** Hold tests that are over. */
    public int testsOver() {
        return testsOver;
    }

    /** The reading at rest, Pa; 0 before the line was seen at rest. */
    public double zeroPa() {
        return Double.isNaN(zeroPa) ? 0 : zeroPa;
    }

    /** Standard deviation of means over some 20 ms, Pa; 0 until known. */
    public double noisePa() {
        return detector.noisePa();
    }
}
