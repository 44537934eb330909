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
        double topBar = 1.1 * Math.max(joint.leakBar(), joint.data().peakBar);
        Reduction data = joint.data();
        double[] missed = joint.missedBar();
        List<FitPoint> fit = new ArrayList<>();
        for (int i = 0; i < missed.length; i++) {
            if (!Double.isNaN(missed[i])) {
                int row = joint.posterior().evidence.row[i];
                double p = data.pressureBar[row];
                fit.add(new FitPoint(originS + data.timeS[row], p * 1e5, (p - missed[i]) * 1e5));
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
