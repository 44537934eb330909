package org.holdtrace.chart;

/** The unit a time axis is labelled in: seconds as long as the numbers stay short, then minutes, then hours. */
enum TimeUnitShown {
    SECONDS("s", 1, 900),
    MINUTES("min", 60, 4 * 3600),
    HOURS("h", 3600, Double.POSITIVE_INFINITY);

    private final String symbol;
    private final double seconds;
    private final double upToS;

    TimeUnitShown(String symbol, double seconds, double upToS) {
        this.symbol = symbol;
        this.seconds = seconds;
        this.upToS = upToS;
    }

    /** The unit for an axis that spans {@code durationS}. */
    static TimeUnitShown forSpan(double durationS) {
        for (TimeUnitShown unit : values()) {
            if (durationS <= unit.upToS) {
                return unit;
            }
        }
        return HOURS;
    }

    String symbol() {
        return symbol;
    }

    double from(double timeS) {
        return timeS / seconds;
    }
}
