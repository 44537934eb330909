package org.holdtrace.adc;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.holdtrace.quantity.Require;
import org.holdtrace.quantity.Unit;
import org.holdtrace.session.Calibration;
import org.holdtrace.session.Calibration.Point;
import org.holdtrace.session.Calibration.Residual;
import org.holdtrace.session.ChannelKind;

/**
 * One input of the converter and what is wired to it.
 *
 * @param name unique among the inputs, such as {@code pressure}
 * @param kind what it measures; {@link ChannelKind#SUPPLY} for the transducers' supply, in V
 * @param pin number of the converter's input
 * @param signal what the transducer gives
 * @param dividerShare voltage at the converter's pin over that at the transducer's output: 1 without a divider
 * @param lowSi what the transducer's lower end stands for, Pa, K or V
 * @param highSi what its upper end stands for
 * @param fast whether it is read at every tick of sampling; the others now and then
 */
public record SensorInput(
        String name,
        ChannelKind kind,
        int pin,
        Signal signal,
        double dividerShare,
        double lowSi,
        double highSi,
        boolean fast) {
    /** What supplies transducers of 0.5 to 4.5 V, V. */
    public static final double NOMINAL_SUPPLY_VOLTS = 5;

    /** Ratiometric transducers are made for ±5 % of it as a rule (common practice, no source). */
    private static final double SUPPLY_TOLERANCE = 0.05;

    /** A measured supply further off is taken for a fault of the measurement, not for the supply. */
    private static final double SUPPLY_BELIEVED = 0.2;

    private static final double SLOPE_PLAUSIBLE = 0.1;

    /** Points whose signals are nearer than this part of the span make no line: noise would be its slope. */
    private static final double LEAST_APART = 0.01;

    private static final double ZERO_PLAUSIBLE = 0.05;

    public SensorInput {
        Require.within(dividerShare, 0.001, 1, "divider of input " + name, "");
        Require.finite(lowSi, "lower end of input " + name, "");
        Require.finite(highSi, "upper end of input " + name, "");
        if (highSi == lowSi) {
            throw new IllegalArgumentException("input " + name + " has a range without width: " + lowSi);
        }
    }

    /** The transducers' supply, measured through a divider. */
    public static SensorInput supply(int pin, double dividerShare, double nominalVolts) {
        double upTo = (1 + SUPPLY_BELIEVED) * nominalVolts;
        return new SensorInput(
                "supply", ChannelKind.SUPPLY, pin, new Signal.Voltage(0, upTo), dividerShare, 0, upTo, false);
    }

    /** A Pt1000 in the oil. */
    public static SensorInput pt1000(String name, ChannelKind kind, int pin, double seriesOhms) {
        return new SensorInput(
                name,
                kind,
                pin,
                new Signal.Pt1000(seriesOhms),
                1,
                Unit.DEG_C.toSi(Signal.Pt1000.LOW_DEG_C),
                Unit.DEG_C.toSi(Signal.Pt1000.HIGH_DEG_C),
                false);
    }

    /** Whether this is the transducers' supply. */
    public boolean isSupply() {
        return kind == ChannelKind.SUPPLY;
    }

    /** The supply below which transducers are not to be believed, V. */
    public static double lowestSupplyVolts(double nominalVolts) {
        return (1 - SUPPLY_TOLERANCE) * nominalVolts;
    }

    /**
     * The supply to calibrate by: the measured one where it can be one, else the nominal one.
     *
     * @param measuredVolts V, NaN where it was not measured
     */
    public static double believedSupplyVolts(double measuredVolts, double nominalVolts) {
        return Math.abs(measuredVolts / nominalVolts - 1) <= SUPPLY_BELIEVED ? measuredVolts : nominalVolts;
    }

    /** Volts at the converter's pin for a signal of 1. */
    public double pinVoltsPerUnit(double supplyVolts) {
        return signal.voltsPerUnit(supplyVolts) * dividerShare;
    }

    /** Size of the signal that gives {@code pinVolts} at the converter's pin. */
    public double signalSize(double pinVolts, double supplyVolts) {
        return pinVolts / pinVoltsPerUnit(supplyVolts);
    }

    /** Voltage at the converter's pin for {@code siValue} by the transducer's name plate: for simulations. */
    public double pinVolts(double siValue, double supplyVolts) {
        double share = (siValue - lowSi) / (highSi - lowSi);
        return (signal.low() + share * (signal.high() - signal.low())) * pinVoltsPerUnit(supplyVolts);
    }

    /** Highest voltage at the pin that still means something, V: the converter's range must cover it. */
    public double highestPinVolts(double supplyVolts) {
        Signal.Limits limits = signal.limits();
        double highest = Double.isInfinite(limits.brokenAbove()) ? limits.doubtfulAbove() : limits.brokenAbove();
        return (Double.isInfinite(highest) ? signal.high() : highest) * pinVoltsPerUnit(supplyVolts);
    }

    /**
     * From counts to SI: by the stored calibration where there is one, else by the transducer's name plate.
     *
     * @param voltsPerCount of the converter at this pin, V
     * @param supplyVolts what the transducers get now, V; of no account where the signal is not a share of it
     */
    public Calibration calibration(double voltsPerCount, double supplyVolts, Optional<StoredCalibration> stored) {
        double perUnit = pinVoltsPerUnit(supplyVolts);
        if (stored.isEmpty()) {
            return Calibration.line(
                    voltsPerCount,
                    new Point(signal.low() * perUnit, lowSi),
                    new Point(signal.high() * perUnit, highSi));
        }
        StoredCalibration by = stored.get();
        StoredCalibration.Line line = by.line().orElse(namePlate());
        List<Residual> residuals = by.checks().stream()
                .map(check -> new Residual(check.siValue(), line.siValue(check.signal()) - check.siValue()))
                .toList();
        double shiftSi = by.zero().map(zero -> line.siValue(zero.signal())).orElse(0.0);
        return new Calibration(
                voltsPerCount,
                0,
                new Point(line.lowSignal() * perUnit, line.lowSi() - shiftSi),
                new Point(line.highSignal() * perUnit, line.highSi() - shiftSi),
                residuals,
                by.reference(),
                by.date());
    }

    /** The line of the transducer's name plate. */
    public StoredCalibration.Line namePlate() {
        return new StoredCalibration.Line(signal.low(), lowSi, signal.high(), highSi);
    }

    /**
     * Hands {@code calibration} back where the transducer can be like that.
     *
     * @throws IllegalArgumentException where its points are less than 1 % of the span apart, its slope is more than 10 % off
     *     the name plate's, or its zero more than 5 % of the span: then a point was read at another pressure, or another transducer is wired than is configured
     */
    public StoredCalibration plausible(StoredCalibration calibration) {
        StoredCalibration.Line plate = namePlate();
        StoredCalibration.Line line = calibration.line().orElse(plate);
        double slope = line.perSignal() / plate.perSignal();
        double apart = (line.highSignal() - line.lowSignal()) / (plate.highSignal() - plate.lowSignal());
        if (!(Math.abs(apart) >= LEAST_APART)) {
            throw new IllegalArgumentException(String.format(
                    Locale.ROOT,
                    "input %s: its readings at the references hardly differ, by %.2f %% of its span. Check the pressure at"
                            + " the transducer",
                    name,
                    100 * Math.abs(apart)));
        }
        if (!(Math.abs(slope - 1) <= SLOPE_PLAUSIBLE)) {
            throw new IllegalArgumentException(String.format(
                    Locale.ROOT,
                    "input %s: its slope would be %.3f times that of its name plate; expected within %.0f %%."
                            + " Check the reference and the transducer's range",
                    name,
                    slope,
                    100 * SLOPE_PLAUSIBLE));
        }
        double span = highSi - lowSi;
        if (calibration.zero().isPresent()) {
            double offBy = line.siValue(calibration.zero().get().signal()) / span;
            if (!(Math.abs(offBy) <= ZERO_PLAUSIBLE)) {
                throw new IllegalArgumentException(String.format(
                        Locale.ROOT,
                        "input %s: its zero would be off by %.1f %% of its span; expected within %.0f %%."
                                + " Is the line really without pressure?",
                        name,
                        100 * offBy,
                        100 * ZERO_PLAUSIBLE));
            }
        }
        return calibration;
    }
}
