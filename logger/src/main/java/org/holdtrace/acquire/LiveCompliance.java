package org.holdtrace.acquire;

import java.util.Arrays;
import java.util.Optional;
import org.holdtrace.fluid.EntrainedAir;
import org.holdtrace.fluid.Oil;
import org.holdtrace.line.Compliance;
import org.holdtrace.quantity.Quantity;
import org.holdtrace.session.TestSetup;

/**
 * The compliance of the line as far as it can be told while pumping: from what each stroke of known volume raised the
 * pressure by, and from volume, oil and line where they are stated. One thread.
 */
final class LiveCompliance {
    /**
     * Slow compliance over that which a stroke sees: oil is 10 to 15 % stiffer when compressed fast (common practice, no
     * source) and has a third to nine tenths of the compliance.
     */
    private static final double SLOW_OVER_FAST = 1.07;

    private static final double SLOW_OVER_FAST_UNCERTAINTY = 0.04;

    /** Line compliance where none is stated, m³/Pa: a metre or two of small-bore hose, common practice. */
    private static final double USUAL_LINE_M3_PER_PA = 0.006e-11;

    private static final double USUAL_LINE_UNCERTAINTY = 1.0;
    private static final double USUAL_AIR = 0.005;
    private static final double USUAL_AIR_UNCERTAINTY = 0.8;
    private static final double USUAL_TEMPERATURE_K = 295;
    private static final double ASSUMED_OIL_UNCERTAINTY = 0.12;

    /** Rises at lower pressures than this part of it tell more about air than about the compliance at a pressure. */
    private static final double NEAR_PART = 0.6;

    private static final double LEAST_SCATTER = 0.02;
    private static final int MOST_STROKES = 512;

    private final TestSetup setup;
    private final double[] durationS = new double[MOST_STROKES];
    private final double[] risePa = new double[MOST_STROKES];
    private final double[] endPa = new double[MOST_STROKES];
    private int strokes;

    LiveCompliance(TestSetup setup) {
        this.setup = setup;
    }

    /** A new pump-up begins. */
    void clear() {
        strokes = 0;
    }

    /** Takes a stroke: how long it lasted, s, by how much it raised the pressure and to where, Pa above zero. */
    void stroke(double lastedS, double rosePa, double toPa) {
        int at = strokes++ % MOST_STROKES;
        durationS[at] = lastedS;
        risePa[at] = rosePa;
        endPa[at] = toPa;
    }

    /** The last stroke goes on: it is told of anew. */
    void forgetLast() {
        strokes = Math.max(0, strokes - 1);
    }

    /**
     * The compliance that a slow change at {@code pa} sees, m³/Pa; empty where nothing tells.
     *
     * @param lossPerS share of the pressure that a leak takes each second, which strokes have to make up for
     */
    Optional<Quantity> atM3PerPa(double pa, double lossPerS) {
        Optional<Quantity> byStrokes = byStrokes(pa, lossPerS);
        Optional<Quantity> byVolume = byVolume(pa);
        if (byStrokes.isEmpty() || byVolume.isEmpty()) {
            return byStrokes.isPresent() ? byStrokes : byVolume;
        }
        // Both are products of uncertain factors: their logarithms are averaged.
        double ua = byStrokes.get().relativeUncertainty();
        double ub = byVolume.get().relativeUncertainty();
        double wa = 1 / (ua * ua);
        double wb = 1 / (ub * ub);
        double mean = Math.exp((wa * Math.log(byStrokes.get().value())
                        + wb * Math.log(byVolume.get().value()))
                / (wa + wb));
        return Optional.of(new Quantity(mean, mean / Math.sqrt(wa + wb)));
    }

    private Optional<Quantity> byStrokes(double pa, double lossPerS) {
        if (setup.pumpStrokeM3().isEmpty() || !(pa > 0)) {
            return Optional.empty();
        }
        Quantity volume = setup.pumpStrokeM3().get();
        double[] compliance = new double[MOST_STROKES];
        int n = 0;
        int kept = Math.min(strokes, MOST_STROKES);
        // The last is usually cut short: its volume is unknown.
        for (int i = Math.max(0, strokes - kept); i < strokes - 1; i++) {
            int at = i % MOST_STROKES;
            double rise = risePa[at] + Math.max(0, lossPerS) * endPa[at] * durationS[at];
            if (endPa[at] > NEAR_PART * pa && rise > 0) {
                compliance[n++] = volume.value() / rise;
            }
        }
        if (n == 0) {
            return Optional.empty();
        }
        double median = median(compliance, n);
        double[] off = new double[n];
        for (int i = 0; i < n; i++) {
            off[i] = Math.abs(compliance[i] / median - 1);
        }
        double scatter = n < 3 ? 0.15 : Math.max(LEAST_SCATTER, 1.48 * median(off, n));
        double relative = Math.sqrt(volume.relativeUncertainty() * volume.relativeUncertainty()
                + 1.57 * scatter * scatter / n // π/2: a median is that much less certain than a mean
                + SLOW_OVER_FAST_UNCERTAINTY * SLOW_OVER_FAST_UNCERTAINTY);
        double slow = SLOW_OVER_FAST * median;
        return Optional.of(new Quantity(slow, relative * slow));
    }

    private Optional<Quantity> byVolume(double pa) {
        if (setup.trappedVolumeM3().isEmpty()) {
            return Optional.empty();
        }
        Quantity volume = setup.trappedVolumeM3().get();
        Quantity modulus = modulus();
        Quantity air = setup.airFraction().orElse(new Quantity(USUAL_AIR, USUAL_AIR_UNCERTAINTY * USUAL_AIR));
        Quantity line = setup.lineComplianceM3PerPa()
                .orElse(new Quantity(USUAL_LINE_M3_PER_PA, USUAL_LINE_UNCERTAINTY * USUAL_LINE_M3_PER_PA));
        double at = Math.max(0, pa);
        double base = compliance(volume.value(), modulus.value(), air.value(), line.value(), at);
        double byV = compliance(step(volume), modulus.value(), air.value(), line.value(), at) - base;
        double byK = compliance(volume.value(), step(modulus), air.value(), line.value(), at) - base;
        double byA = compliance(volume.value(), modulus.value(), step(air), line.value(), at) - base;
        double byL = line.standardUncertainty();
        double u = Math.sqrt(byV * byV + byK * byK + byA * byA + byL * byL);
        return Optional.of(new Quantity(base, Math.max(u, 0.01 * base)));
    }

    private Quantity modulus() {
        if (setup.bulkModulusPa().isPresent()) {
            return setup.bulkModulusPa().get();
        }
        Optional<Oil> stated = setup.oilGrade().flatMap(Oil::ofGrade);
        double temperatureK = setup.oilTemperatureK().map(Quantity::value).orElse(USUAL_TEMPERATURE_K);
        Quantity estimate = stated.orElse(Oil.ofViscosityAt40(46e-6)).isothermalModulusPa(temperatureK);
        return stated.isPresent() && setup.oilTemperatureK().isPresent()
                ? estimate
                : new Quantity(estimate.value(), ASSUMED_OIL_UNCERTAINTY * estimate.value());
    }

    private static double step(Quantity quantity) {
        return quantity.value() + quantity.standardUncertainty();
    }

    private static double compliance(double volumeM3, double modulusPa, double air, double lineM3PerPa, double pa) {
        double fraction = Math.min(0.5, Math.max(0, air));
        return Compliance.isothermalM3PerPa(volumeM3, modulusPa, new EntrainedAir(fraction, 1), lineM3PerPa, pa);
    }

    private static double median(double[] values, int n) {
        double[] sorted = Arrays.copyOf(values, n);
        Arrays.sort(sorted);
        return n % 2 == 1 ? sorted[n / 2] : 0.5 * (sorted[n / 2 - 1] + sorted[n / 2]);
    }
}
