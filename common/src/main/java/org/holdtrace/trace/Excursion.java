package org.holdtrace.trace;

/**
 * Readings that no line makes: within one sample the reading jumps away, stays for a few samples and within one sample
 * is back where it was. A push, a leak and the tooth of a saw lead up to their peak or down from it; a fault of cable,
 * supply or converter does not.
 */
public final class Excursion {
    /** Samples needed on each side of the one that is asked about. */
    public static final int REACH = 4;

    /** Samples an excursion lasts at the most. */
    private static final int LONGEST = REACH - 1;

    /** Each edge is at least this part of the excursion. */
    private static final double EDGE_PART = 0.5;

    /** The readings before and after agree to this part of the excursion. */
    private static final double RETURN_PART = 0.4;

    /** A course that changes by more than this part of the excursion from sample to sample leads to it. */
    private static final double LEADS_PART = 0.3;

    private Excursion() {}

    /**
     * The middle value, or what stands for it where it belongs to an excursion.
     *
     * @param values {@code 2 REACH + 1} readings in a row, of any unit
     * @param least difference that noise does not make, same unit
     * @return the middle value itself, or the mean of the readings before and after the excursion
     */
    public static double without(double[] values, double least) {
        double value = values[REACH];
        double about = 0.5 * (values[0] + values[2 * REACH]);
        double leave = Math.max(least, EDGE_PART * Math.abs(value - about));
        int before = REACH - 1;
        while (before > 0 && !(Math.abs(values[before] - value) > leave)) {
            before--;
        }
        int after = REACH + 1;
        while (after < 2 * REACH && !(Math.abs(values[after] - value) > leave)) {
            after++;
        }
        if (before == 0 || after == 2 * REACH || after - before - 1 > LONGEST) {
            return value;
        }
        double level = 0.5 * (values[before] + values[after]);
        double off = Math.abs(value - level);
        boolean returns = Math.abs(values[after] - values[before]) < RETURN_PART * off;
        boolean ledTo = Math.abs(values[before] - values[before - 1]) > LEADS_PART * off
                || Math.abs(values[after] - values[after + 1]) > LEADS_PART * off;
        return off > least && returns && !ledTo ? level : value;
    }
}
