package org.holdtrace.fit;

import java.util.Arrays;

/** What a sample drawn from a distribution tells of it (JCGM 101:2008, clauses 7.5 to 7.7). */
public final class Sample {
    private Sample() {}

    /** Mean, 2.5 % point, median and 97.5 % point of {@code draws}, which stay as they are. */
    public static double[] summary(double[] draws) {
        double[] sorted = draws.clone();
        Arrays.sort(sorted);
        return new double[] {mean(sorted), quantile(sorted, 0.025), quantile(sorted, 0.5), quantile(sorted, 0.975)};
    }

    /** The mean; 0 where there are none. */
    public static double mean(double[] draws) {
        double sum = 0;
        for (double v : draws) {
            sum += v;
        }
        return draws.length == 0 ? 0 : sum / draws.length;
    }

    /** The standard deviation about the mean. */
    public static double deviation(double[] draws) {
        double mean = mean(draws);
        double square = 0;
        for (double v : draws) {
            square += (v - mean) * (v - mean);
        }
        return Math.sqrt(square / draws.length);
    }

    /** The value that a share {@code p} of the draws lies below, straight between two of them. */
    public static double quantile(double[] sorted, double p) {
        double at = p * (sorted.length - 1);
        int i = (int) at;
        return i + 1 >= sorted.length ? sorted[sorted.length - 1] : sorted[i] + (at - i) * (sorted[i + 1] - sorted[i]);
    }

    /** The share of the draws that lies above {@code limit}: the probability of not conforming to it (JCGM 106). */
    public static double probabilityOver(double[] sorted, double limit) {
        int at = Arrays.binarySearch(sorted, limit);
        int below = at >= 0 ? at : -at - 1;
        return 1 - (double) below / sorted.length;
    }
}
