package org.holdtrace.trace;

/** Sharpens where a hold begins and ends. */
final class HoldRefiner {
    private static final double LATEST_PART = 1.0 / 3;
    private static final double CALM_RATIO = 1.35;
    /** Oil at the transducer comes to rest after the last push, whatever the leak. */
    private static final double SHORTEST_S = 0.3;

    private final SampleWindow window;
    private final double zeroPa;

    HoldRefiner(SampleWindow window, double zeroPa) {
        this.window = window;
        this.zeroPa = zeroPa;
    }

    /** When the valve was opened, s: the last sample on the course before. */
    double bleedStart(FoundTest found, double pumpedS) {
        double about = found.bleedFromS;
        double level = window.mean(Math.max(pumpedS, about - 0.2), about);
        double low = window.mean(Math.max(about, found.bleedToS - 0.2), found.bleedToS);
        // Up to where a third of the fall is done; beyond, the course of the fall itself would rule the fit.
        double third = window.firstBelow(level - 0.35 * (level - low), about, found.bleedToS);
        window.load(Math.max(pumpedS, Math.min(about, third - 0.5) - 0.3), third);
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
