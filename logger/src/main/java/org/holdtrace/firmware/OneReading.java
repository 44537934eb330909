package org.holdtrace.firmware;

import java.io.IOException;
import java.io.PrintStream;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.holdtrace.adc.AdcException;
import org.holdtrace.adc.CalibrationStore;
import org.holdtrace.adc.Converter;
import org.holdtrace.adc.SensorInput;
import org.holdtrace.adc.StoredCalibration;
import org.holdtrace.quantity.Dimension;
import org.holdtrace.quantity.Quantity;
import org.holdtrace.quantity.QuantityException;
import org.holdtrace.quantity.QuantityParser;
import org.holdtrace.quantity.Unit;
import org.holdtrace.session.Calibration;
import org.holdtrace.session.ChannelKind;

/** The commands that look at an input for a moment and keep what they found: {@code zero} and {@code calibrate}. */
final class OneReading {
    /** Readings are averaged over this time, s, at this rate, Hz: noise of some 50 Hz from the mains averages out. */
    private static final double FOR_S = 2;

    private static final double RATE_HZ = 100;

    /** A pressure that moves by more than this part of the span within the reading is none to calibrate by. */
    private static final double STEADY_PART = 0.002;

    private final Bench bench;
    private final PrintStream out;

    OneReading(Bench bench, PrintStream out) {
        this.bench = bench;
        this.out = out;
    }

    /** What an input gave. */
    private record Reading(double signal, double supplyVolts, double voltsPerCount) {}

    private Reading read(SensorInput input) throws IOException {
        Configuration configuration = bench.configuration();
        try (Converter converter = bench.converter()) {
            converter.restart();
            double supplyVolts = configuration.supplyVolts();
            if (configuration.supplyInput().isPresent()) {
                SensorInput supply = configuration.supplyInput().get();
                double volts = mean(converter, supply) * converter.voltsPerCount(supply.pin());
                supplyVolts = SensorInput.believedSupplyVolts(
                        supply.signalSize(volts, supplyVolts), configuration.supplyVolts());
            }
            double perCount = converter.voltsPerCount(input.pin());
            return new Reading(input.signalSize(mean(converter, input) * perCount, supplyVolts), supplyVolts, perCount);
        } catch (AdcException e) {
            throw new IOException(e.getMessage(), e);
        }
    }

    private double mean(Converter converter, SensorInput input) throws AdcException, IOException {
        int n = (int) (FOR_S * RATE_HZ);
        double[] halves = new double[2];
        for (int i = 0; i < n; i++) {
            halves[2 * i / n] += converter.read(input.pin());
            bench.clock().waitNs((long) (1e9 / RATE_HZ));
        }
        double span = (input.signal().high() - input.signal().low())
                * input.pinVoltsPerUnit(bench.configuration().supplyVolts())
                / converter.voltsPerCount(input.pin());
        double moved = Math.abs(halves[1] - halves[0]) / (0.5 * n);
        if (!(moved <= STEADY_PART * Math.abs(span))) {
            throw new IOException(String.format(
                    Locale.ROOT,
                    "input %s moved by %.2f %% of its span within %.0f s; expected a steady reading",
                    input.name(),
                    100 * moved / Math.abs(span),
                    FOR_S));
        }
        return (halves[0] + halves[1]) / n;
    }

    /** Takes the present pressure as zero. */
    void zero(WallClock clock) throws IOException {
        SensorInput input = bench.configuration().inputs().get(0);
        Reading reading = read(input);
        CalibrationStore store = store();
        StoredCalibration before = store.of(input.name()).orElse(StoredCalibration.none());
        double was = siValue(input, reading, before);
        store.put(input.name(), plausible(input, before.withZero(reading.signal(), Calibrator.date(clock))));
        out.printf(
                Locale.ROOT,
                "zero of %s taken: %s, read as %s before%n",
                input.name(),
                input.signal().say(reading.signal()),
                say(input, was));
    }

    /** Compares an input with a reference, and makes a calibration of two points or more. */
    void calibrate(Options options, WallClock clock) throws IOException, UsageException {
        SensorInput input = input(options.value("--input"));
        String at = options.value("--at")
                .orElseThrow(() -> new UsageException("calibrate needs --at, what the reference shows"));
        double reference = siValue(at, input);
        Reading reading = read(input);
        CalibrationStore store = store();
        StoredCalibration before = store.of(input.name()).orElse(StoredCalibration.none());
        List<StoredCalibration.Check> checks = new ArrayList<>(options.fresh() ? List.of() : before.checks());
        checks.add(new StoredCalibration.Check(reading.signal(), reference));
        Optional<String> by = options.value("--reference").or(before::reference);
        boolean onePressure = checks.stream()
                        .mapToDouble(StoredCalibration.Check::siValue)
                        .distinct()
                        .count()
                < 2;
        StoredCalibration after = onePressure
                ? new StoredCalibration(before.line(), checks, by, Calibrator.date(clock), before.zero())
                : plausible(input, StoredCalibration.through(checks, by, Calibrator.date(clock)));
        store.put(input.name(), after);
        out.printf(
                Locale.ROOT,
                "%s: %s at %s, by the name plate %s%n",
                input.name(),
                input.signal().say(reading.signal()),
                say(input, reference),
                say(input, siValue(input, reading, StoredCalibration.none())));
        if (onePressure) {
            out.println("One more point at another pressure makes a calibration.");
            return;
        }
        Calibration calibration = input.calibration(reading.voltsPerCount(), reading.supplyVolts(), Optional.of(after));
        for (Calibration.Residual residual : calibration.residuals()) {
            out.printf(
                    Locale.ROOT,
                    "  at %s the calibration is off by %s%n",
                    say(input, residual.siValue()),
                    say(input, residual.offBy()));
        }
    }

    /** Hands {@code calibration} back where the transducer can be like that. */
    private static StoredCalibration plausible(SensorInput input, StoredCalibration calibration) throws IOException {
        try {
            return input.plausible(calibration);
        } catch (IllegalArgumentException e) {
            throw new IOException(
                    e.getMessage() + "; nothing was kept of this. calibrate --fresh forgets the points before", e);
        }
    }

    private CalibrationStore store() {
        return new CalibrationStore(bench.configuration().storage().state());
    }

    private SensorInput input(Optional<String> name) throws UsageException {
        List<SensorInput> inputs = bench.configuration().inputs();
        if (name.isEmpty()) {
            return inputs.get(0);
        }
        List<String> names = new ArrayList<>();
        for (SensorInput input : inputs) {
            names.add(input.name());
            if (input.name().equals(name.get())) {
                return input;
            }
        }
        throw new UsageException("there is no input " + name.get() + "; the inputs are " + String.join(", ", names));
    }

    private static Dimension dimension(SensorInput input) {
        ChannelKind kind = input.kind();
        boolean temperature = kind == ChannelKind.OIL_TEMPERATURE || kind == ChannelKind.AMBIENT_TEMPERATURE;
        return temperature ? Dimension.TEMPERATURE : input.isSupply() ? Dimension.VOLTAGE : Dimension.PRESSURE;
    }

    private static double siValue(String text, SensorInput input) throws UsageException {
        try {
            Quantity quantity = QuantityParser.parse(text, dimension(input));
            return quantity.value();
        } catch (QuantityException e) {
            throw new UsageException("--at: " + e.getMessage());
        }
    }

    private double siValue(SensorInput input, Reading reading, StoredCalibration stored) {
        Calibration calibration =
                input.calibration(reading.voltsPerCount(), reading.supplyVolts(), Optional.of(stored));
        double volts = reading.signal() * input.pinVoltsPerUnit(reading.supplyVolts());
        return calibration.atZeroCount() + volts / reading.voltsPerCount() * calibration.perCount();
    }

    private static String say(SensorInput input, double si) {
        return switch (dimension(input)) {
            case PRESSURE -> String.format(Locale.ROOT, "%.3f bar", Unit.BAR.fromSi(si));
            case TEMPERATURE -> String.format(Locale.ROOT, "%.2f degC", Unit.DEG_C.fromSi(si));
            default -> String.format(Locale.ROOT, "%.4f V", si);
        };
    }
}
