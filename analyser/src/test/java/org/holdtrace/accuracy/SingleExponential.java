package org.holdtrace.accuracy;

import java.util.Optional;
import org.holdtrace.fluid.Oil;
import org.holdtrace.quantity.Quantity;
import org.holdtrace.session.TestSetup;
import org.holdtrace.trace.HoldTest;
import org.holdtrace.trace.Phase;
import org.holdtrace.trace.PhaseSpan;
import org.holdtrace.trace.Trace;

/**
 * What someone would do with a spreadsheet: fit {@code p = p0 exp(-t/tau)} to the hold by least squares and take
 * {@code q = (V/K) p/tau} for the leak, with the modulus as stated, else from grade and temperature, else 1.4 GPa as
 * handbooks have it (10 %). The interval combines what the fit says of tau, taking residuals for independent, with the
 * stated uncertainties of V and K.
 */
final class SingleExponential {
    private static final double HANDBOOK_MODULUS_PA = 1.4e9;
    private static final double HANDBOOK_RELATIVE = 0.10;

    private SingleExponential() {}

    /** A leak rate with its 95 % interval, m³/s. */
    record Answer(double m3PerS, double lower95, double upper95) {}

    /** Nothing where the setup states no volume or the test has no hold. */
    static Optional<Answer> estimate(Trace trace, HoldTest test, TestSetup setup, double atPa) {
        Optional<PhaseSpan> hold = test.phase(Phase.HOLD).or(() -> test.phase(Phase.SETTLING));
        if (hold.isEmpty() || setup.trappedVolumeM3().isEmpty()) {
            return Optional.empty();
        }
        int from = trace.indexAt(hold.get().fromS());
        int to = Math.min(trace.size(), trace.indexAt(hold.get().toS()));
        if (to - from < 5) {
            return Optional.empty();
        }
        double[] rate = decayRate(trace, from, to, test.rest().zeroPa());
        Quantity volume = setup.trappedVolumeM3().orElseThrow();
        Quantity modulus = modulus(setup);
        double scale = volume.value() / modulus.value() * atPa;
        double ofScale = Math.hypot(volume.relativeUncertainty(), modulus.relativeUncertainty());
        double leak = scale * rate[0];
        double u = Math.hypot(scale * rate[1], leak * ofScale);
        return Optional.of(new Answer(leak, leak - 1.96 * u, leak + 1.96 * u));
    }

    private static Quantity modulus(TestSetup setup) {
        if (setup.bulkModulusPa().isPresent()) {
            return setup.bulkModulusPa().get();
        }
        Optional<Oil> oil = setup.oilGrade().flatMap(Oil::ofGrade);
        if (oil.isPresent() && setup.oilTemperatureK().isPresent()) {
            return oil.get().isothermalModulusPa(setup.oilTemperatureK().get().value());
        }
        return new Quantity(HANDBOOK_MODULUS_PA, HANDBOOK_RELATIVE * HANDBOOK_MODULUS_PA);
    }

    /** 1/tau and its standard uncertainty from the fit, 1/s: Gauss-Newton from two means. */
    private static double[] decayRate(Trace trace, int from, int to, double zeroPa) {
        double t0 = trace.timeS(from);
        int tenth = Math.max(1, (to - from) / 10);
        double first = mean(trace, from, from + tenth) - zeroPa;
        double last = mean(trace, to - tenth, to) - zeroPa;
        double span = trace.timeS(to - 1) - t0;
        double p0 = Math.max(first, 1);
        double rate = first > 0 && last > 0 ? Math.log(first / last) / (0.9 * span) : 3 / span;
        double u = 0;
        for (int i = 0; i < 60; i++) {
            double aa = 0;
            double ab = 0;
            double bb = 0;
            double ra = 0;
            double rb = 0;
            double rr = 0;
            for (int k = from; k < to; k++) {
                double t = trace.timeS(k) - t0;
                double a = Math.exp(-rate * t);
                double b = -p0 * t * a;
                double r = trace.pressurePa(k) - zeroPa - p0 * a;
                aa += a * a;
                ab += a * b;
                bb += b * b;
                ra += r * a;
                rb += r * b;
                rr += r * r;
            }
            double det = aa * bb - ab * ab;
            if (!(det > 0)) {
                break;
            }
            double stepRate = (aa * rb - ab * ra) / det;
            p0 += (bb * ra - ab * rb) / det;
            rate += Math.max(-0.5 / span - Math.abs(rate), Math.min(0.5 / span + Math.abs(rate), stepRate));
            u = Math.sqrt(rr / (to - from - 2) * aa / det);
            if (Math.abs(stepRate) < 1e-9 * Math.abs(rate) + 1e-15) {
                break;
            }
        }
        return new double[] {rate, u};
    }

    private static double mean(Trace trace, int from, int to) {
        double sum = 0;
        for (int i = from; i < to; i++) {
            sum += trace.pressurePa(i);
        }
        return sum / (to - from);
    }
}
