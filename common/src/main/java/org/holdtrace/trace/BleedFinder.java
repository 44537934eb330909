package org.holdtrace.trace;

/**
 * Tells a bleed-off from a leak: pressure that falls much faster than it just did, by more than noise and by a fair part
 * of what is there. A leak slows down as pressure falls, however fast it is; a valve that is opened does not.
 */
final class BleedFinder {
    private static final double COARSE_S = 0.1;
    private static final int RING = 24;
    /** The newest steps are left out of the reference slope, or a gentle opening would raise its own reference. */
    private static final int LAG = 3;

    private static final int FEWEST = 3;
    private static final double FASTER = 1.6;
    private static final double SIGMAS = 8;
    private static final double PART_OF_PRESSURE = 0.05;
    private static final double NOISE_S = 1.5;
    /** At rest again: no more than this part of the fall in {@link #CALM} coarse steps. */
    private static final double CALM_PART = 0.012;

    private static final int CALM = 7;

    private final double[] coarsePa = new double[RING];
    private final double[] coarseS = new double[RING];
    private int coarse;
    private double binFromS;
    private double binSum;
    private double binSumS;
    private int binCount;
    private double lastS = Double.NaN;
    private double lastPa;
    private double sum;
    private double fromS;
    private double fromPa;
    private double calmS;

    /** Begins anew at the end of a stroke, or where pressure was first seen (s, Pa). */
    void begin(double timeS, double meanPa) {
        coarse = 0;
        restartAt(timeS, meanPa);
    }

    private void restartAt(double timeS, double meanPa) {
        binFromS = timeS;
        binSum = 0;
        binSumS = 0;
        binCount = 0;
        lastS = timeS;
        lastPa = meanPa;
        sum = 0;
        fromS = timeS;
        fromPa = meanPa;
    }

    /**
     * Takes a block mean while the line is shut; true where a bleed-off is on since {@link #fromS}.
     *
     * @param zeroPa reading at no pressure
     * @param leastPa pressure above zero below which there is nothing to let off
     */
    boolean opened(double timeS, double meanPa, double sigmaPa, double zeroPa, double leastPa) {
        double slope = referenceSlope();
        double elapsed = timeS - lastS;
        double fall = lastPa - meanPa;
        add(timeS, meanPa);
        if (Double.isNaN(slope)) {
            fromS = timeS;
            fromPa = meanPa;
            return false;
        }
        double allowed = Math.max(0, -slope) * FASTER + SIGMAS * sigmaPa / NOISE_S;
        sum += fall - allowed * elapsed;
        if (sum <= 0) {
            sum = 0;
            fromS = timeS;
            fromPa = meanPa;
            return false;
        }
        double above = fromPa - zeroPa;
        return above > leastPa && sum > Math.max(SIGMAS * sigmaPa, PART_OF_PRESSURE * above);
    }

    /** Takes a block mean during a bleed-off; true where pressure has come to rest, since {@link #calmS}. */
    boolean atRest(double timeS, double meanPa, double sigmaPa) {
        if (!add(timeS, meanPa) || coarse < CALM || coarseS[(coarse - CALM) % RING] <= fromS) {
            return false;
        }
        double low = Double.POSITIVE_INFINITY;
        double high = Double.NEGATIVE_INFINITY;
        for (int i = coarse - CALM; i < coarse; i++) {
            low = Math.min(low, coarsePa[i % RING]);
            high = Math.max(high, coarsePa[i % RING]);
        }
        calmS = coarseS[(coarse - CALM) % RING];
        return high - low <= Math.max(4 * sigmaPa, CALM_PART * (fromPa - low));
    }

    private boolean add(double timeS, double meanPa) {
        boolean closed = false;
        if (binCount > 0 && timeS >= binFromS + COARSE_S * 0.999) {
            coarseS[coarse % RING] = binSumS / binCount;
            coarsePa[coarse % RING] = binSum / binCount;
            coarse++;
            binFromS = timeS;
            binSum = 0;
            binSumS = 0;
            binCount = 0;
            closed = true;
        }
        binSumS += timeS;
        binSum += meanPa;
        binCount++;
        lastS = timeS;
        lastPa = meanPa;
        return closed;
    }

    /** The steeper of the slopes over the older and the newer half of what is remembered, Pa/s. */
    private double referenceSlope() {
        int last = coarse - 1 - LAG;
        int first = Math.max(1, coarse - RING + 1);
        if (last - first < FEWEST) {
            return Double.NaN;
        }
        int middle = (first + last) / 2;
        return Math.min(slope(first, middle), slope(middle, last));
    }

    private double slope(int a, int b) {
        return (coarsePa[b % RING] - coarsePa[a % RING]) / (coarseS[b % RING] - coarseS[a % RING]);
    }

    /** Where the fast fall began, s. */
    double fromS() {
        return fromS;
    }

    /** Pressure where the fast fall began, Pa. */
    double fromPa() {
        return fromPa;
    }

    /** Since when pressure has been at rest, s. */
    double calmS() {
        return calmS;
    }
}
