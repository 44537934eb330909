package org.holdtrace.judge;

/**
 * How much an element leaks where one knows only whether it is over its limit: distributions of the leak as a multiple
 * r of the limit. Wide on purpose and without a published source (common practice says only that worn parts leak
 * anything from just over the limit to a stream); the measured leaks decide, not these.
 *
 * <ul>
 *   <li>sound and tight by design: 60 of 100 do not leak at all; the others anything from 0.01 to 1, log-uniform
 *   <li>sound and leaking by design: 0.05 to 1, log-uniform, in 98 of 100; less in the others, evenly
 *   <li>over the limit: 1 to 100, log-uniform, in 98 of 100; above that up to 100 000 in the others
 * </ul>
 */
final class LeakSize {
    private static final double NO_LEAK_AT_ALL = 0.6;
    private static final double LEAST_OF_TIGHT = 0.01;
    private static final double LEAST_BY_DESIGN = 0.05;
    private static final double SHARE_BELOW = 0.02;
    private static final double MOST = 100;
    private static final double FAR_BEYOND = 1e5;
    private static final double SHARE_BEYOND = 0.02;

    private LeakSize() {}

    /**
     * The share of elements of {@code kind} that leak at most x limits, integrated over x from 0 to {@code r}: the mean of
     * how far their leaks stay below r.
     */
    static double below(ElementKind kind, boolean worn, double r) {
        if (r <= 0) {
            return 0;
        }
        if (worn) {
            return (1 - SHARE_BEYOND) * logUniform(r, 1, MOST) + SHARE_BEYOND * logUniform(r, MOST, FAR_BEYOND);
        }
        return kind.leaksByDesign()
                ? SHARE_BELOW * even(r, LEAST_BY_DESIGN) + (1 - SHARE_BELOW) * logUniform(r, LEAST_BY_DESIGN, 1)
                : NO_LEAK_AT_ALL * r + (1 - NO_LEAK_AT_ALL) * logUniform(r, LEAST_OF_TIGHT, 1);
    }

    /** How many limits a sound element of {@code kind} usually leaks: the median of one by design, the mean of a tight one. */
    static double usualOfSound(ElementKind kind) {
        return kind.leaksByDesign()
                ? Math.sqrt(LEAST_BY_DESIGN)
                : (1 - NO_LEAK_AT_ALL) * (1 - LEAST_OF_TIGHT) / -Math.log(LEAST_OF_TIGHT);
    }

    /** The r that this share of elements does not exceed, for draws. */
    static double quantile(ElementKind kind, boolean worn, double share) {
        if (worn) {
            double within = 1 - SHARE_BEYOND;
            return share < within
                    ? Math.pow(MOST, share / within)
                    : MOST * Math.pow(FAR_BEYOND / MOST, (share - within) / SHARE_BEYOND);
        }
        if (kind.leaksByDesign()) {
            return share < SHARE_BELOW
                    ? LEAST_BY_DESIGN * share / SHARE_BELOW
                    : LEAST_BY_DESIGN * Math.pow(1 / LEAST_BY_DESIGN, (share - SHARE_BELOW) / (1 - SHARE_BELOW));
        }
        return share < NO_LEAK_AT_ALL
                ? 0
                : LEAST_OF_TIGHT * Math.pow(1 / LEAST_OF_TIGHT, (share - NO_LEAK_AT_ALL) / (1 - NO_LEAK_AT_ALL));
    }

    private static double logUniform(double r, double from, double to) {
        if (r <= from) {
            return 0;
        }
        double upTo = Math.min(r, to);
        return (upTo * Math.log(upTo / from) - upTo + from) / Math.log(to / from) + Math.max(0, r - to);
    }

    private static double even(double r, double to) {
        double upTo = Math.min(r, to);
        return upTo * upTo / (2 * to) + Math.max(0, r - to);
    }
}
