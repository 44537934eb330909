package org.holdtrace.estimate;

import java.util.function.DoubleUnaryOperator;

/**
 * The volume balance of a trapped line, C dp/dt = −q(p), solved by the classical Runge–Kutta method where there is no
 * closed form for it: any compliance, any leak, and oil that was warmed by a stroke and cools with one time constant.
 */
final class Balance implements ClosedForm.Line {
    private static final double STEP_S = 0.02;

    private final DoubleUnaryOperator fastCm3PerBar;
    private final double heatCm3PerBar;
    private final double thetaS;
    private final DoubleUnaryOperator leakCm3PerS;
    private double p;
    private double w;

    /**
     * @param fastCm3PerBar compliance a stroke sees at a gauge pressure in bar
     * @param heatCm3PerBar by how much the isothermal compliance is larger
     * @param thetaS time constant with which the heat of compression leaves
     * @param leakCm3PerS leak at a gauge pressure in bar
     */
    Balance(DoubleUnaryOperator fastCm3PerBar, double heatCm3PerBar, double thetaS, DoubleUnaryOperator leakCm3PerS) {
        this.fastCm3PerBar = fastCm3PerBar;
        this.heatCm3PerBar = heatCm3PerBar;
        this.thetaS = thetaS;
        this.leakCm3PerS = leakCm3PerS;
    }

    @Override
    public double bar() {
        return p;
    }

    @Override
    public void stroke(double cm3) {
        int steps = 8;
        double dv = cm3 / steps;
        for (int i = 0; i < steps; i++) {
            double middle = p + 0.5 * dv / fastCm3PerBar.applyAsDouble(p);
            p += dv / fastCm3PerBar.applyAsDouble(middle);
        }
    }

    private double slope(double bar, double warm) {
        double leak = bar > 0 ? leakCm3PerS.applyAsDouble(bar) : 0;
        return -(leak + heatCm3PerBar * (bar - warm) / thetaS) / fastCm3PerBar.applyAsDouble(bar);
    }

    @Override
    public void pass(double s) {
        int steps = Math.max(1, (int) Math.ceil(s / STEP_S));
        double h = s / steps;
        for (int i = 0; i < steps; i++) {
            double k1 = slope(p, w);
            double m1 = (p - w) / thetaS;
            double k2 = slope(p + 0.5 * h * k1, w + 0.5 * h * m1);
            double m2 = (p + 0.5 * h * k1 - w - 0.5 * h * m1) / thetaS;
            double k3 = slope(p + 0.5 * h * k2, w + 0.5 * h * m2);
            double m3 = (p + 0.5 * h * k2 - w - 0.5 * h * m2) / thetaS;
            double k4 = slope(p + h * k3, w + h * m3);
            double m4 = (p + h * k3 - w - h * m3) / thetaS;
            p = Math.max(0, p + h / 6 * (k1 + 2 * k2 + 2 * k3 + k4));
            w += h / 6 * (m1 + 2 * m2 + 2 * m3 + m4);
        }
    }
}
