package org.holdtrace.adc;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.holdtrace.quantity.Require;

/**
 * What was found out about one input and is kept from day to day. It speaks of signals (share of the supply, V, A), so that
 * it holds whatever converter and supply the transducer meets.
 *
 * @param line by two points, where there were any; else the transducer's name plate holds
 * @param checks every point that was compared with a reference
 * @param reference what it was compared with
 * @param date when; empty where nobody knows
 * @param zero where the signal stood without pressure, the last time somebody took it
 */
public record StoredCalibration(
        Optional<Line> line,
        List<Check> checks,
        Optional<String> reference,
        Optional<LocalDate> date,
        Optional<Zero> zero) {
    public StoredCalibration {
        checks = List.copyOf(checks);
    }

    /**
     * A straight line.
     *
     * @param lowSignal size of the signal at one point
     * @param lowSi what it stands for, Pa, K or V
     * @param highSignal at another
     * @param highSi what that stands for
     */
    public record Line(double lowSignal, double lowSi, double highSignal, double highSi) {
        public Line {
            Require.finite(lowSi, "lower point of a calibration", "");
            Require.finite(highSi, "upper point of a calibration", "");
            Require.finite(1 / (highSignal - lowSignal), "a signal's reciprocal span", "");
        }

        /** What the signal stands for. */
        public double siValue(double signal) {
            return lowSi + (signal - lowSignal) * perSignal();
        }

        /** What one more of the signal stands for. */
        public double perSignal() {
            return (highSi - lowSi) / (highSignal - lowSignal);
        }
    }

    /**
     * A comparison with a reference.
     *
     * @param signal what the input gave
     * @param siValue what the reference showed
     */
    public record Check(double signal, double siValue) {
        public Check {
            Require.finite(signal, "signal of a check", "");
            Require.finite(siValue, "reference of a check", "");
        }
    }

    /**
     * The signal without pressure.
     *
     * @param date when; empty where the logger had no clock to believe
     */
    public record Zero(double signal, Optional<LocalDate> date) {
        public Zero {
            Require.finite(signal, "signal at zero", "");
        }
    }

    /** Nothing known yet. */
    public static StoredCalibration none() {
        return new StoredCalibration(Optional.empty(), List.of(), Optional.empty(), Optional.empty(), Optional.empty());
    }

    /**
     * The line through the two outermost of {@code checks}; those between tell how far it is off.
     *
     * @throws IllegalArgumentException where there are no two points apart
     */
    public static StoredCalibration through(List<Check> checks, Optional<String> reference, Optional<LocalDate> date) {
        List<Check> sorted = new ArrayList<>(checks);
        sorted.sort(Comparator.comparingDouble(Check::siValue));
        Check low = sorted.isEmpty() ? null : sorted.get(0);
        Check high = sorted.isEmpty() ? null : sorted.get(sorted.size() - 1);
        if (low == null || low.siValue() == high.siValue() || low.signal() == high.signal()) {
            throw new IllegalArgumentException(
                    "a calibration needs two points with different references and signals, has " + checks);
        }
        Line line = new Line(low.signal(), low.siValue(), high.signal(), high.siValue());
        return new StoredCalibration(Optional.of(line), sorted, reference, date, Optional.empty());
    }

    /** The same with another zero. */
    public StoredCalibration withZero(double signal, Optional<LocalDate> when) {
        return new StoredCalibration(line, checks, reference, date, Optional.of(new Zero(signal, when)));
    }
}
