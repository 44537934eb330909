package org.holdtrace.estimate;

/**
 * What the model of the line may be wrong by. A model that is trusted to the last millibar gives intervals far too
 * narrow: these errors are as much part of the covariance as the noise of the transducer.
 *
 * @param strokeBar what one stroke raises the pressure by, bar
 * @param local compliance at each row relative to that at the norm pressure
 * @param airBar error of the air model at each row, bar
 * @param lineShare share of hose, gauge and fittings in the compliance
 * @param unshut how much of what the closing of the shut-off valve will have taken or given is still to come at each row:
 *     1 at the last push, 0 once the valve is shut
 * @param shutBar what that may be in all, bar
 */
record ModelError(
        double strokeBar, double[] local, double[] airBar, double lineShare, double[] unshut, double shutBar) {
    /** Pressures, as fractions of the largest, over which compliance may differ from the model's … */
    private static final double[] CURVE_FRACTION = {0.05, 0.15, 0.5};

    /** … and by how much, as a fraction of a hose's compliance: hoses swell most at low pressure. */
    private static final double[] CURVE_ERROR = {0.25, 0.15, 0.04};

    /** Share of the compliance that may relax at a neighbouring time constant instead. */
    private static final double RELAXATION_ERROR = 0.006;

    /** What a transducer's zero may wander in ten minutes, bar. */
    private static final double ZERO_DRIFT_BAR = 0.05;

    /**
     * Nobody shuts a valve at once: until then the pump's check valve may let oil back, and the stem displaces some, in ways
     * of their own. So long it takes at the most, s, and so much may go or come, as a share of the peak (one standard
     * deviation; common practice, no source).
     */
    private static final double SHUT_WITHIN_S = 6;

    private static final double SHUT_SHARE = 0.02;

    /** Of a short hold no more than this share is doubted for that. */
    private static final double SHUT_PART = 0.3;

    static ModelError of(Reduction data, Knowledge knowledge, double strokeBar) {
        double[] expected = knowledge.expected();
        double c = knowledge.isothermalCompliance(expected, knowledge.normBar);
        double air = knowledge.value(Knowledge.VOLUME, 0) * knowledge.value(Knowledge.AIR, 0);
        double[] local = new double[data.rows];
        double[] error = new double[data.rows];
        for (int i = 0; i < local.length; i++) {
            local[i] = knowledge.isothermalCompliance(expected, data.pressureBar[i]) / c;
            double ratio = 1 - data.column[Columns.AIR][i];
            error[i] = 0.1 * air * ratio * ratio / c;
        }
        double line = knowledge.value(Knowledge.LINE, 0);
        return new ModelError(strokeBar, local, error, Math.min(1, line / c), unshut(data), SHUT_SHARE * data.peakBar);
    }

    /** Rows of a hold count down until the valve is shut; through a pause amid the pump-up it stays open. */
    private static double[] unshut(Reduction data) {
        double[] left = new double[data.rows];
        for (int first = 0, after = 0; first < data.rows; first = after) {
            while (after < data.rows
                    && data.strokesBefore[after] == data.strokesBefore[first]
                    && data.kind[after] == data.kind[first]) {
                after++;
            }
            double from = data.timeS[first] - 0.5 * data.lengthS[first];
            double length = data.timeS[after - 1] + 0.5 * data.lengthS[after - 1] - from;
            boolean hold = data.kind[first] == Reduction.Kind.HOLD;
            double within = hold ? Math.min(SHUT_WITHIN_S, SHUT_PART * length) : length;
            for (int i = first; i < after && data.open[first]; i++) {
                double toCome = Math.max(0, 1 - (data.timeS[i] - from) / within);
                left[i] = hold ? toCome * toCome : toCome;
            }
        }
        return left;
    }

    /** Covariance (bar²) of what is still to come at rows {@code a} and {@code b} until the valve is shut: a walk backwards. */
    double untilShut(Reduction data, int a, int b) {
        return data.strokesBefore[a] == data.strokesBefore[b] ? shutBar * shutBar * Math.min(unshut[a], unshut[b]) : 0;
    }

    /**
     * The ways for the shape to be wrong: the compliance is not exactly the stated function of pressure, nor does heat
     * leave and a hose creep exactly as two exponentials and a logarithm. Each row of the answer is one standard
     * deviation of one way, bar, at each of {@code row}.
     */
    double[][] shapes(Reduction data, int[] row) {
        int n = row.length;
        int relaxations = Columns.RELAXATION_S.length;
        double[][] out = new double[CURVE_FRACTION.length + relaxations][n];
        for (int b = 0; b < CURVE_FRACTION.length; b++) {
            double scale = CURVE_FRACTION[b] * data.peakBar;
            double size = CURVE_ERROR[b] * (0.2 + 0.8 * lineShare) * scale;
            for (int i = 0; i < n; i++) {
                out[b][i] = size * -Math.expm1(-data.pressureBar[row[i]] / scale);
            }
        }
        for (int k = 0; k + 1 < relaxations; k++) {
            double[] a = data.column[Columns.RELAXATION + k];
            double[] b = data.column[Columns.RELAXATION + k + 1];
            for (int i = 0; i < n; i++) {
                out[CURVE_FRACTION.length + k][i] = RELAXATION_ERROR * (1 + 0.5 * lineShare) * (a[row[i]] - b[row[i]]);
            }
        }
        for (int i = 0; i < n; i++) {
            out[out.length - 1][i] = ZERO_DRIFT_BAR * data.timeS[row[i]] / 600;
        }
        return out;
    }
}
