package org.holdtrace.estimate;

import java.util.ArrayList;
import java.util.List;
import org.holdtrace.estimate.HoldTestResult.CurvePoint;
import org.holdtrace.estimate.HoldTestResult.FitPoint;
import org.holdtrace.fit.Sample;

/** The curves that charts are drawn from. */
final class Pictures {
    private static final int CURVE_POINTS = 25;

    private static final int CURVE_DRAWS = 800;

    private Pictures() {}

    static HoldTestResult.FitPicture of(Joint joint, Carry carry, double originS, boolean told) {
        Evidence evidence = joint.posterior().evidence;
        NodeFit best = joint.best();
        double topBar = 1.1 * Math.max(joint.leakBar(), joint.data().peakBar);
        Reduction data = evidence.data;
        double[] residual = evidence.rawResidual(best.gamma);
        double mean = 0;
        int n = 0;
        for (int i = 0; i < residual.length; i++) {
            if (data.kind[evidence.row[i]] == Reduction.Kind.HOLD) {
                mean += residual[i];
                n++;
            }
        }
        mean /= Math.max(1, n);
        List<FitPoint> fit = new ArrayList<>();
        for (int i = 0; i < residual.length; i++) {
            int row = evidence.row[i];
            if (data.kind[row] == Reduction.Kind.HOLD) {
                double p = data.pressureBar[row];
                fit.add(new FitPoint(
                        originS + data.timeS[row],
                        p * 1e5,
                        // The balance is in oil; where the line is softer a given volume is less pressure.
                        (p - (residual[i] - mean) / joint.errors().local()[row]) * 1e5));
            }
        }
        List<CurvePoint> curve = new ArrayList<>();
        double[] bar = new double[CURVE_POINTS];
        for (int i = 0; i < CURVE_POINTS; i++) {
            bar[i] = topBar * i / (CURVE_POINTS - 1);
        }
        double[][] draws = joint.posterior().draw(Posterior.tempered(joint.leakingWeights()), bar, CURVE_DRAWS, carry);
        for (int i = 0; i < CURVE_POINTS; i++) {
            double[] s = Sample.summary(draws[i]);
            double low = Math.max(0, s[1]);
            curve.add(new CurvePoint(
                    bar[i] * 1e5, Math.max(0, s[2]) * 1e-6, (told ? low : 0) * 1e-6, Math.max(0, s[3]) * 1e-6));
        }
        return new HoldTestResult.FitPicture(fit, curve);
    }
}
