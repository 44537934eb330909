package org.holdtrace.trace;

/**
 * Finds strokes in block means as they come: cumulative sums of the rise beyond a slope between standstill and push.
 *
 * <p>Waiting for a push, the sum of {@code Δp − r Δt} is kept from falling below zero; once it exceeds what noise can do,
 * a push is on and began where the sum last was zero. During a push the mirrored sum tells its end. The slope {@code r}
 * is a fraction of the slope of pushes, and the sums' limits a fraction of their rise, so the finder has the scale of
 * the strokes themselves: steps of a cylinder, the saw-tooth of a worn port, a push that hesitates.
 */
final class StrokeFinder {
    /** What a call of {@link #accept} found. */
    enum Found {
        NOTHING,
        START,
        END
    }

    private static final int REMEMBERED = 5;
    /** White noise of σ makes a sum climb 7 σ less than once in some hours of blocks; false ones are verified away. */
    private static final double START_SIGMAS = 7;

    private static final double END_SIGMAS = 4;
    /** A cut-short stroke of a tenth of the usual rise must pass, ringing after a stroke must not. */
    private static final double START_PART_OF_RISE = 0.004;

    private static final double END_PART_OF_RISE = 0.025;
    private static final double KNOWN_PART = 0.4;
    private static final double WAIT_PART_OF_SLOPE = 0.004;
    private static final double PUSH_PART_OF_SLOPE = 0.3;
    /** Of a rise longer than a hand's push, pauses within have lowered the mean slope: more of it is needed to go on. */
    private static final double LONG_PART_OF_SLOPE = 0.5;
    /** No rise slower than this is a hand's: the slope a first, unknown stroke must exceed is its limit over this. */
    private static final double SLOWEST_S = 1.5;
    /**
     * What a push is held against reaches back this far, s: longer than a hand's push of 0.2 to 1 s. Small first strokes
     * may run together; were the whole rise since then the measure, no later pause would be long enough to end it.
     */
    private static final double REACH_S = 2;

    private final double[] rises = new double[REMEMBERED];
    private final double[] slopes = new double[REMEMBERED];
    private final double[] scratch = new double[REMEMBERED];
    private int remembered;
    private double typicalRise;
    private double typicalSlope;

    private boolean pushing;
    private double sum;
    private double lastS = Double.NaN;
    private double lastPa;
    private double startS;
    private double startPa;
    private double reachedS;
    private double reachedPa;
    private double endS;
    private double endPa;

    /** Takes a block mean (s, Pa) the noise of block means and the least rise that counts, Pa. */
    Found accept(double timeS, double meanPa, double sigmaPa, double leastRisePa) {
        if (Double.isNaN(lastS)) {
            begin(timeS, meanPa);
            return Found.NOTHING;
        }
        double elapsed = timeS - lastS;
        double rise = meanPa - lastPa;
        lastS = timeS;
        lastPa = meanPa;
        return pushing
                ? push(timeS, meanPa, elapsed, rise, sigmaPa)
                : await(timeS, meanPa, elapsed, rise, sigmaPa, leastRisePa);
    }

    private Found await(double timeS, double meanPa, double elapsed, double rise, double sigmaPa, double leastRisePa) {
        double limit = Math.max(Math.max(START_SIGMAS * sigmaPa, START_PART_OF_RISE * typicalRise), leastRisePa);
        double slope = Math.max(WAIT_PART_OF_SLOPE * typicalSlope, START_SIGMAS * sigmaPa / SLOWEST_S);
        sum += rise - slope * elapsed;
        if (sum <= 0) {
            sum = 0;
            startS = timeS;
            startPa = meanPa;
            return Found.NOTHING;
        }
        if (sum <= limit) {
            return Found.NOTHING;
        }
        pushing = true;
        sum = 0;
        reachedS = startS;
        reachedPa = startPa;
        advance(timeS, meanPa);
        return Found.START;
    }

    private Found push(double timeS, double meanPa, double elapsed, double rise, double sigmaPa) {
        double risen = endPa - reachedPa;
        // Where one pause is missed the mean slope includes it; known strokes then tell what a push is like.
        double mean = risen / Math.max(endS - reachedS, elapsed);
        double partOfSlope = endS - startS > REACH_S ? LONG_PART_OF_SLOPE : PUSH_PART_OF_SLOPE;
        double slope = partOfSlope * Math.max(mean, KNOWN_PART * typicalSlope);
        double part = END_PART_OF_RISE * risen;
        if (remembered >= REMEMBERED) {
            part = Math.min(part, 3 * END_PART_OF_RISE * typicalRise);
        }
        double limit = Math.max(END_SIGMAS * sigmaPa, part);
        sum += slope * elapsed - rise;
        if (sum <= 0) {
            sum = 0;
            advance(timeS, meanPa);
            return Found.NOTHING;
        }
        return sum > limit ? end(timeS, meanPa) : Found.NOTHING;
    }

    /** The push goes on to here; of its rise what lies further back than the reach fades. */
    private void advance(double timeS, double meanPa) {
        endS = timeS;
        endPa = meanPa;
        if (endS - reachedS > REACH_S) {
            reachedPa = endPa - (endPa - reachedPa) * REACH_S / (endS - reachedS);
            reachedS = endS - REACH_S;
        }
    }

    private Found end(double timeS, double meanPa) {
        remember(endPa - startPa, (endPa - startPa) / Math.max(endS - startS, BlockFilter.BLOCK_S));
        pushing = false;
        sum = 0;
        foundStartS = startS;
        foundStartPa = startPa;
        startS = timeS;
        startPa = meanPa;
        return Found.END;
    }

    private double foundStartS;
    private double foundStartPa;

    private void remember(double rise, double slope) {
        rises[remembered % REMEMBERED] = rise;
        slopes[remembered % REMEMBERED] = slope;
        remembered++;
        int n = Math.min(remembered, REMEMBERED);
        System.arraycopy(rises, 0, scratch, 0, n);
        typicalRise = Medians.ofFirst(scratch, n);
        System.arraycopy(slopes, 0, scratch, 0, n);
        typicalSlope = Medians.ofFirst(scratch, n);
    }

    /** Starts anew at a sample after a gap; true where that ended a push. */
    boolean interrupt(double timeS, double meanPa) {
        boolean ended = pushing;
        if (pushing) {
            end(timeS, meanPa);
        }
        begin(timeS, meanPa);
        return ended;
    }

    private void begin(double timeS, double meanPa) {
        lastS = timeS;
        lastPa = meanPa;
        startS = timeS;
        startPa = meanPa;
        sum = 0;
    }

    /** Forgets the size of strokes when pressure was let off: the next pump-up starts with air again. */
    void forgetRises() {
        remembered = 0;
        typicalRise = 0;
        typicalSlope = 0;
    }

    /** Whether a push is on. */
    boolean pushing() {
        return pushing;
    }

    /** Whether neither a push is on nor a rise is adding up. */
    boolean calm(double sigmaPa) {
        return !pushing && sum <= 3 * sigmaPa + START_PART_OF_RISE * typicalRise;
    }

    /** Start of the push that is on, or of the one that just ended, s. */
    double startS() {
        return pushing ? startS : foundStartS;
    }

    /** Pressure at {@link #startS}, Pa. */
    double startPa() {
        return pushing ? startPa : foundStartPa;
    }

    /** End of the push that just ended, s. */
    double endS() {
        return endS;
    }

    /** Pressure at {@link #endS}, Pa. */
    double endPa() {
        return endPa;
    }

    /** Median rise of the last strokes, Pa; 0 before any. */
    double typicalRisePa() {
        return typicalRise;
    }
}
