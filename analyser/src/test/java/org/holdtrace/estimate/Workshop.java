package org.holdtrace.estimate;

import java.util.function.DoubleUnaryOperator;

/**
 * An ordinary invented test of a valve port, from which the tests of behaviour depart one thing at a time: 60 cm³ of oil
 * and a hose, 26 strokes to some 100 bar, a leak, a hold.
 */
final class Workshop {
    static final double SLOW_CM3_PER_BAR = 0.0103;
    /** Of the oil's 0.0041 cm³/bar 13 % are heat (BM-02). */
    static final double HEAT_CM3_PER_BAR = 0.00055;

    static final double HEAT_S = 15;
    static final double STROKE_CM3 = 0.05;

    private Workshop() {}

    static ClosedForm form() {
        ClosedForm form = new ClosedForm();
        form.strokes = 26;
        form.strokeCm3 = STROKE_CM3;
        form.everyS = 0.8;
        form.holdS = 60;
        form.rateHz = 50;
        form.noiseBar = 0.01;
        return form;
    }

    static ClosedForm.Line line(DoubleUnaryOperator leakCm3PerS) {
        return new Balance(p -> SLOW_CM3_PER_BAR - HEAT_CM3_PER_BAR, HEAT_CM3_PER_BAR, HEAT_S, leakCm3PerS);
    }

    /** A clearance that lets {@code cm3PerMin} through at 100 bar. */
    static ClosedForm.Line laminar(double cm3PerMin) {
        return line(p -> cm3PerMin / 60 * p / 100);
    }

    /** Everything stated. */
    static Known known() {
        return calibrated().stroke("0.05 cm3 ± 2 %");
    }

    /** Volume, oil and line stated, the stroke not. */
    static Known calibrated() {
        return sensor().volume("60 cm3 ± 3 %")
                .modulus("1.42 GPa ± 3 %")
                .air("0 %")
                .line("0.0062 cm3/bar ± 5 %")
                .grade("ISO VG 46")
                .temperature("20 ± 1 degC");
    }

    /** The transducer alone. */
    static Known sensor() {
        return new Known().transducer(160, 0.1).reference("100 bar");
    }
}
