package org.holdtrace.trace;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;

/**
 * Counts the pushes of a hold test while they are made. {@link PhaseDetector} tells of a push that slows down on its way as
 * of two; whether the second goes on with the first shows when it is over, by the same measure as in the whole trace
 * ({@link TraceSegmenter}), as far as what came by then allows. So a count may be corrected a few strokes later, and the
 * first strokes of a test, which cannot be told apart yet, are. One thread.
 */
public final class PushCount {
    /** Samples that are kept: a pause and the push behind it at 860 a second. */
    private static final int KEPT = 1 << 12;

    /**
     * A push, as far as it is over.
     *
     * @param stroke all of it
     * @param startPa the reading where it began, Pa
     * @param endPa the reading where it ended, Pa
     * @param goesOn whether it is longer than what was told of it before
     */
    public record Push(Stroke stroke, double startPa, double endPa, boolean goesOn) {
        /** By how much it raised the pressure, Pa. */
        public double risePa() {
            return endPa - startPa;
        }
    }

    private final Recent recent = new Recent();
    private final List<StrokeRefiner.Edges> parts = new ArrayList<>();
    private UnbrokenPushes pushes;
    private int count;

    /** Takes a sample: time, s, and reading, Pa. */
    public void accept(double timeS, double pressurePa) {
        if (Double.isFinite(pressurePa)) {
            recent.add(timeS, pressurePa);
        }
    }

    /** A pump-up begins: what was counted is forgotten. */
    public void begin() {
        parts.clear();
        pushes = null;
        count = 0;
    }

    /**
     * Takes what the detector told of.
     *
     * @param startPa the reading where it began, Pa
     * @param endPa the reading where it ended, Pa
     * @param zeroPa the reading at rest, Pa
     * @param noisePa standard deviation of means over some 20 ms, Pa
     * @return it, or the push that it goes on with
     */
    public Push ended(Stroke stroke, double startPa, double endPa, double zeroPa, double noisePa) {
        if (pushes == null) {
            pushes = new UnbrokenPushes(recent, zeroPa);
        }
        recent.blockNoisePa = noisePa;
        StrokeRefiner.Edges part = new StrokeRefiner.Edges(stroke.startS(), stroke.endS(), startPa, endPa);
        parts.add(part);
        pushes.add(part);
        BitSet goingOn = pushes.goingOn();
        count = parts.size() - goingOn.cardinality();
        int last = parts.size() - 1;
        StrokeRefiner.Edges first = parts.get(goingOn.previousClearBit(last));
        return new Push(new Stroke(first.startS, part.endS), first.startPa, endPa, goingOn.get(last));
    }

    /** Pushes since the pump-up began. */
    public int count() {
        return count;
    }

    /** The newest samples. */
    private static final class Recent implements UnbrokenPushes.Readings {
        private final double[] timeS = new double[KEPT];
        private final double[] readingPa = new double[KEPT];
        private long taken;
        private double blockNoisePa;
        private final double[] s = new double[KEPT];
        private final double[] pa = new double[KEPT];
        private int n;

        void add(double atS, double pressurePa) {
            int newest = (int) ((taken - 1) % KEPT);
            if (taken > 0 && !(atS > timeS[newest])) {
                if (atS == timeS[newest]) {
                    return;
                }
                taken = 0; // another recording
            }
            int at = (int) (taken++ % KEPT);
            timeS[at] = atS;
            readingPa[at] = pressurePa;
        }

        @Override
        public void loadAll(double fromS, double toS) {
            n = 0;
            long oldest = Math.max(0, taken - KEPT);
            if (oldest > 0 && timeS[(int) (oldest % KEPT)] > fromS) {
                return; // what is seen in part tells nothing
            }
            long from = taken;
            while (from > oldest && timeS[(int) ((from - 1) % KEPT)] >= fromS) {
                from--;
            }
            for (long i = from; i < taken && timeS[(int) (i % KEPT)] <= toS; i++) {
                s[n] = timeS[(int) (i % KEPT)];
                pa[n++] = readingPa[(int) (i % KEPT)];
            }
        }

        @Override
        public int n() {
            return n;
        }

        @Override
        public double[] s() {
            return s;
        }

        @Override
        public double[] pa() {
            return pa;
        }

        /** White noise goes with the root of the number that a mean is made of. */
        @Override
        public double noisePa() {
            double perBlock = n < 2 ? 1 : BlockFilter.BLOCK_S * (n - 1) / (s[n - 1] - s[0]);
            return blockNoisePa * Math.sqrt(Math.max(1, perBlock));
        }
    }
}
