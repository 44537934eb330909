package org.holdtrace.desk;

import java.util.Arrays;
import java.util.List;
import java.util.Locale;

/** How a measure of the desk is told. */
public final class Measured {
    private Measured() {}

    /** Prints median, p99 and most of {@code ms}, milliseconds. */
    public static void print(String what, List<Double> ms) {
        double[] sorted = ms.stream().mapToDouble(Double::doubleValue).toArray();
        Arrays.sort(sorted);
        System.out.printf(
                Locale.ROOT,
                "%s: median %.1f, p99 %.1f, most %.1f ms (%d)%n",
                what,
                at(sorted, 0.5),
                at(sorted, 0.99),
                at(sorted, 1),
                sorted.length);
    }

    private static double at(double[] sorted, double share) {
        return sorted.length == 0 ? Double.NaN : sorted[(int) Math.round(share * (sorted.length - 1))];
    }
}
