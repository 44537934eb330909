package org.holdtrace.estimate;

/**
 * What keeps a row from obeying the balance exactly. All in bar, as if it were pressure noise.
 *
 * @param whiteBar standard deviation of one sample, independent from sample to sample
 * @param colourBar standard deviation of the part that lasts (an Ornstein–Uhlenbeck process)
 * @param colourS its correlation time, s
 * @param walkBar standard deviation a random walk gains in 1 s: temperature that wanders, a zero that drifts
 * @param quantumBar step between readings
 * @param scatter standard deviation of a stroke's volume, as a fraction of it
 * @param tailBar standard deviation of what a row between two strokes has besides: what a push leaves ringing, hands that
 *     are not quite still
 */
record Noise(
        double whiteBar,
        double colourBar,
        double colourS,
        double walkBar,
        double quantumBar,
        double scatter,
        double tailBar) {

    /** Variance of the mean over a stretch of length {@code lengthS} of the lasting part. */
    double colourVariance(double lengthS) {
        double u = lengthS / colourS;
        double factor = u < 1e-3 ? 1 - u / 3 : 2 / u * (1 - -Math.expm1(-u) / u);
        return colourBar * colourBar * factor;
    }

    /** What averaging over a stretch of length {@code lengthS} leaves of the covariance with what lies outside it. */
    double colourShare(double lengthS) {
        double u = lengthS / colourS;
        return u < 1e-6 ? 1 : -Math.expm1(-u) / u;
    }
}
