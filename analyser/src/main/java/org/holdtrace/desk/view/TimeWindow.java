package org.holdtrace.desk.view;

/**
 * The stretch of time that is shown.
 *
 * @param fromS its start, s
 * @param toS its end, s, after the start
 */
public record TimeWindow(double fromS, double toS) {
    /** Nearer than this there is nothing to see at any sampling rate in use, s. */
    private static final double SHORTEST_S = 0.01;

    public TimeWindow {
        if (!(toS > fromS)) {
            throw new IllegalArgumentException(
                    "a window must end after its start " + fromS + " s, not at " + toS + " s");
        }
    }

    /** Length, s. */
    public double durationS() {
        return toS - fromS;
    }

    /** {@code factor} times as long, {@code atS} staying where it is on the screen, inside {@code whole}. */
    TimeWindow zoomed(double atS, double factor, TimeWindow whole) {
        double duration = Math.max(Math.min(SHORTEST_S, whole.durationS()), durationS() * factor);
        double part = (atS - fromS) / durationS();
        double from = atS - part * duration;
        return new TimeWindow(from, from + duration).inside(whole);
    }

    /** Moved by {@code byS}, stopping at the ends of {@code whole}. */
    TimeWindow panned(double byS, TimeWindow whole) {
        return new TimeWindow(fromS + byS, toS + byS).inside(whole);
    }

    /** As long as it is, or as {@code whole}, moved to lie inside it. */
    TimeWindow inside(TimeWindow whole) {
        if (durationS() >= whole.durationS()) {
            return whole;
        }
        double from = Math.max(whole.fromS, Math.min(whole.toS - durationS(), fromS));
        return new TimeWindow(from, from + durationS());
    }
}
