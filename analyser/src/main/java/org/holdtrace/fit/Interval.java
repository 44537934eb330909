package org.holdtrace.fit;

/**
 * A coverage interval.
 *
 * @param lower its lower end
 * @param upper its upper end, not below the lower
 */
public record Interval(double lower, double upper) {
    public Interval {
        if (!(upper >= lower)) {
            throw new IllegalArgumentException("an interval ends at " + upper + " below its start at " + lower);
        }
    }

    /** Its length. */
    public double width() {
        return upper - lower;
    }

    /** Whether {@code value} lies in it, ends included. */
    public boolean contains(double value) {
        return value >= lower && value <= upper;
    }
}
