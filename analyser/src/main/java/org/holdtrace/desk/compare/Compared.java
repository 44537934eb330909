package org.holdtrace.desk.compare;

import java.util.List;
import java.util.Optional;
import org.holdtrace.estimate.HoldTestResult;
import org.holdtrace.trace.Phase;
import org.holdtrace.trace.PhaseSpan;
import org.holdtrace.trace.Trace;

/**
 * A hold test among others.
 *
 * @param name what it is known by: what was tested, and after {@link #THEN} its file
 * @param trace the samples of its recording
 * @param result what the analysis makes of it
 */
public record Compared(String name, Trace trace, HoldTestResult result) {
    /** Stands in a name between what was tested and where that is written. */
    public static final String THEN = " · ";

    /** Pressures that differ by less than this share count as one: a leak changes by as little. */
    private static final double SAME_PRESSURE = 0.005;

    /**
     * A leak rate at a pressure.
     *
     * @param m3PerS the rate, m³/s
     * @param lower95 lower end of its 95 % interval
     * @param upper95 upper end
     */
    public record Rate(double m3PerS, double lower95, double upper95) {}

    /** What was tested, without its file. */
    String shortName() {
        int then = name.indexOf(THEN);
        return then < 0 ? name : name.substring(0, then);
    }

    /** From the start of its hold to its end: what is laid over the others. Empty where it has none. */
    public Optional<PhaseSpan> hold() {
        return result.holdTest().phase(Phase.HOLD);
    }

    /** Pressure at the start of the hold, zero taken off, Pa: the mean of its first tenth of a second. */
    public Optional<Double> startPa() {
        return hold().map(span -> {
            int from = Math.min(trace.indexAt(span.fromS()), trace.size() - 1);
            int to = Math.max(from + 1, Math.min(trace.size(), trace.indexAt(span.fromS() + 0.1)));
            double sum = 0;
            for (int i = from; i < to; i++) {
                sum += trace.pressurePa(i);
            }
            return sum / (to - from) - result.holdTest().rest().zeroPa();
        });
    }

    /**
     * The leak at {@code pressurePa}: as stated where it is stated there, otherwise read off the leak against pressure.
     * Empty where neither reaches that pressure.
     */
    public Optional<Rate> rateAt(double pressurePa) {
        Optional<HoldTestResult.Leak> leak = result.leak();
        if (leak.isPresent() && Math.abs(leak.get().atPa() / pressurePa - 1) < SAME_PRESSURE) {
            return leak.map(each -> new Rate(each.m3PerS(), each.lower95(), each.upper95()));
        }
        List<HoldTestResult.CurvePoint> curve =
                result.picture().map(HoldTestResult.FitPicture::leakCurve).orElse(List.of());
        for (int i = 1; i < curve.size(); i++) {
            HoldTestResult.CurvePoint low = curve.get(i - 1);
            HoldTestResult.CurvePoint high = curve.get(i);
            if (low.pressurePa() > high.pressurePa()) {
                HoldTestResult.CurvePoint swapped = low;
                low = high;
                high = swapped;
            }
            if (pressurePa >= low.pressurePa() && pressurePa <= high.pressurePa()) {
                double share = high.pressurePa() == low.pressurePa()
                        ? 0
                        : (pressurePa - low.pressurePa()) / (high.pressurePa() - low.pressurePa());
                return Optional.of(new Rate(
                        between(low.m3PerS(), high.m3PerS(), share),
                        between(low.lower95(), high.lower95(), share),
                        between(low.upper95(), high.upper95(), share)));
            }
        }
        return Optional.empty();
    }

    private static double between(double a, double b, double share) {
        return a + share * (b - a);
    }
}
