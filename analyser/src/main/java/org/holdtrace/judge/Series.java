package org.holdtrace.judge;

/**
 * Distribution of a sum of leaks on an even grid, and with it, for every set of tests, the same weighted by how well the
 * shares of the leak agree with the laws those tests saw: coefficient {@code m} of a polynomial in e1, e2, … of which each
 * square is zero. Sums of independent leaks are products of such polynomials whose coefficients are convolved.
 */
final class Series {
    /** By set of tests (bits), then by multiple of the grid's step; null where that set does not occur. */
    private final double[][] bySet;

    private Series(double[][] bySet) {
        this.bySet = bySet;
    }

    /** The first multiple of the step that has a probability. */
    int first() {
        int i = 0;
        while (i < bySet[0].length - 1 && !(bySet[0][i] > 0)) {
            i++;
        }
        return i;
    }

    /** The last multiple of the step that has a probability. */
    int last() {
        int i = bySet[0].length - 1;
        while (i > 0 && !(bySet[0][i] > 0)) {
            i--;
        }
        return i;
    }

    /** Nothing leaks. */
    static Series nothing(int sets, int points) {
        double[][] bySet = new double[sets][];
        bySet[0] = new double[points];
        bySet[0][0] = 1;
        return new Series(bySet);
    }

    /**
     * One element. A leak between two multiples of the step is shared out between them so that its mean is kept.
     *
     * @param points how many multiples of {@code step}
     * @param step step of the grid, m³/s
     * @param limitM3PerS what the element may leak where the tests were
     * @param lawLikelihood by set of tests (bits): how likely the laws they saw are for this element; NaN where it is not in
     *     all of them
     */
    static Series of(
            ElementKind kind, boolean worn, double limitM3PerS, int points, double step, double[] lawLikelihood) {
        double[] mass = new double[points];
        double width = step / limitM3PerS;
        double before = 0;
        double at = 0;
        for (int i = 0; i < points; i++) {
            double after = LeakSize.below(kind, worn, (i + 1) * width);
            mass[i] = Math.max(0, after - 2 * at + before) / width;
            before = at;
            at = after;
        }
        double[][] bySet = new double[lawLikelihood.length][];
        for (int set = 0; set < bySet.length; set++) {
            if (Double.isNaN(lawLikelihood[set])) {
                continue;
            }
            int power = Integer.bitCount(set);
            bySet[set] = new double[points];
            for (int i = 0; i < points; i++) {
                bySet[set][i] = mass[i] * lawLikelihood[set] * Math.pow(i * step, power);
            }
        }
        return new Series(bySet);
    }

    /** The sum of two independent leaks. */
    Series plus(Series other) {
        int points = bySet[0].length;
        double[][] sum = new double[bySet.length][];
        for (int set = 0; set < bySet.length; set++) {
            for (int part = set; ; part = (part - 1) & set) {
                double[] a = bySet[part];
                double[] b = other.bySet[set ^ part];
                if (a != null && b != null) {
                    sum[set] = sum[set] == null ? new double[points] : sum[set];
                    convolve(a, b, sum[set]);
                }
                if (part == 0) {
                    break;
                }
            }
        }
        return new Series(sum);
    }

    private static void convolve(double[] a, double[] b, double[] into) {
        for (int i = 0; i < a.length; i++) {
            double x = a[i];
            if (x == 0) {
                continue;
            }
            for (int j = 0; i + j < into.length; j++) {
                into[i + j] += x * b[j];
            }
        }
    }

    /** Whether there is a coefficient for this set of tests. */
    boolean has(int set) {
        return bySet[set] != null;
    }

    /** Its value at the multiple {@code i} of the step. */
    double at(int set, int i) {
        return bySet[set][i];
    }
}
