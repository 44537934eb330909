package org.holdtrace.trace;

/** Sharpens where a hold begins and ends. */
final class HoldRefiner {
    private static final double LATEST_PART = 1.0 / 3;
    private static final double CALM_RATIO = 1.35;
    /** Oil at the transducer comes to rest after the last push, whatever the leak. */
    private static final double SHORTEST_S = 0.3;

    private static final double THIRD_PART = 0.35;
    private static final double BEGUN_PART = 0.1;
    /**
     * How many times the time from {@link #BEGUN_PART} to {@link #THIRD_PART} of the fall is looked at before. A fall that
     * grows with the third power of time, as through a valve opened gently, takes 2 of them to begin.
     */
    private static final double BEFORE = 5;

    private static final int ROUNDS = 2;

    /** What a gentle opening had let off unseen counts from so many standard deviations of a sample … */
    private static final double SEEN_SIGMAS = 5;

    /** … and this part of what is let off. */
    private static final double SEEN_PART = 0.003;

    private final SampleWindow window;
    private final double zeroPa;

    HoldRefiner(SampleWindow window, double zeroPa) {
        this.window = window;
        this.zeroPa = zeroPa;
    }

    /** When the valve was opened, s: the last sample on the course before. */
    double bleedStart(FoundTest found, double pumpedS) {
        double about = found.bleedFromS;
        double low = window.mean(Math.max(about, found.bleedToS - 0.2), found.bleedToS);
        double level = window.mean(Math.max(pumpedS, about - 0.2), about);
        // Up to where a third of the fall is done; beyond, the course of the fall itself would rule the fit.
        double third = window.firstBelow(level - THIRD_PART * (level - low), about, found.bleedToS);
        double edge = edge(Math.max(pumpedS, Math.min(about, third - 0.5) - 0.3), third, about, pumpedS);
        double gentle = edge;
        for (int round = 0; round < ROUNDS; round++) {
            gentle = gentleStart(gentle, low, pumpedS, found.bleedToS);
        }
        double seen = Math.max(SEEN_SIGMAS * window.noisePa(), SEEN_PART * (level - low));
        return fallenPa(edge, gentle, third, pumpedS) > seen ? gentle : edge;
    }

    /** How far pressure at {@code edge} lies below the course before {@code gentle} continued straight, Pa; NaN if unknown. */
    private double fallenPa(double edge, double gentle, double third, double pumpedS) {
        double width = Math.min(third - gentle, 0.5 * (gentle - pumpedS));
        double quarter = 0.25 * (edge - gentle);
        if (!(width > 0) || !(quarter > 0)) {
            return Double.NaN;
        }
        // A leak's course lies above the straight line: the line errs to the careful side, and so does the mean before.
        double first = window.mean(gentle - 2 * width, gentle - width);
        double second = window.mean(gentle - width, gentle);
        double slope = Math.min(0, (second - first) / width);
        return second + slope * (0.5 * width + 3.5 * quarter) - window.mean(edge - quarter, edge);
    }

    /**
     * The same for a valve opened so slowly that much of the opening was done at {@code about}: over more time before and
     * to a lesser fall, the course of which a curve that sets in gently can follow.
     */
    private double gentleStart(double about, double low, double pumpedS, double endS) {
        double level = window.mean(Math.max(pumpedS, about - 0.2), about);
        double begun = window.firstBelow(level - BEGUN_PART * (level - low), about, endS);
        double third = window.firstBelow(level - THIRD_PART * (level - low), about, endS);
        // A course before that falls by as much as what is looked at after it is no parabola either.
        double steep = window.lastAbove(level + THIRD_PART * (level - low), pumpedS, about);
        double from = Math.max(steep, begun - BEFORE * (third - begun));
        return Math.min(about, edge(from, begun, about, pumpedS));
    }

    /** Where the course in [fromS, toS] bends; {@code about} where there are too few samples. */
    private double edge(double fromS, double toS, double about, double pumpedS) {
        window.load(fromS, toS);
        double variance = window.noisePa() * window.noisePa() / window.averaged();
        int edge = new EdgeFit().edge(window.s(), window.pa(), window.n(), false, variance);
        return edge < 0 ? about : Math.max(pumpedS, window.s()[edge]);
    }

    /**
     * When settling is over, s: when pressure, relative to what is there, no longer falls much faster than it does
     * later on; or when it has fallen by more than heat of compression can explain, so that a leak rules the course.
     */
    double settled(double fromS, double toS, boolean pumped) {
        double length = toS - fromS;
        double begin = fromS + Math.min(SHORTEST_S, 0.1 * length);
        double latest = fromS + LATEST_PART * length;
        if (!pumped) {
            begin = fromS;
        }
        double first = meanAt(begin, begin + 0.02 * length);
        double later = rate(latest, fromS + 0.7 * length);
        double doubt = 3 * window.noisePa() / Math.max(first - zeroPa, window.noisePa());
        for (double t = begin; t < latest; t = fromS + 1.25 * (t - fromS) + 0.01 * length) {
            double width = Math.max(0.03 * length, 0.4 * (t - fromS));
            double now = rate(t, t + width);
            double level = meanAt(t, t + 0.02 * length);
            boolean heatSpent = first - level > SettlingWatch.HEAT_PART * (first - zeroPa);
            if (!(now > CALM_RATIO * Math.max(later, 0) + doubt / width) || heatSpent) {
                return t;
            }
        }
        return latest;
    }

    private double meanAt(double fromS, double toS) {
        return window.mean(fromS, toS);
    }

    /** Fall relative to the pressure above zero, per second. */
    private double rate(double fromS, double toS) {
        double quarter = 0.25 * (toS - fromS);
        double a = meanAt(fromS, fromS + quarter);
        double b = meanAt(toS - quarter, toS);
        double level = Math.max(0.5 * (a + b) - zeroPa, window.noisePa());
        return (a - b) / (level * 3 * quarter);
    }
}
