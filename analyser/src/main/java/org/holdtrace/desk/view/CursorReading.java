package org.holdtrace.desk.view;

import java.util.List;
import java.util.Optional;
import org.holdtrace.estimate.HoldTestResult.Compliance;
import org.holdtrace.quantity.Unit;
import org.holdtrace.trace.Trace;
import org.holdtrace.wording.Figures;

/**
 * What two cursors read off a trace.
 *
 * @param deltaS time from the first to the second, s; above 0
 * @param deltaPa pressure at the second less that at the first, Pa, straight lines between samples
 * @param leakM3PerS the leak rate that slope means with the test's compliance, m³/s; below 0 where pressure rises
 */
public record CursorReading(double deltaS, double deltaPa, Optional<Double> leakM3PerS) {
    /** Reads {@code trace} at two different times, s, in either order; empty where a reading there is no number. */
    public static Optional<CursorReading> of(
            Trace trace, double firstS, double secondS, Optional<Compliance> compliance) {
        double fromS = Math.min(firstS, secondS);
        double deltaS = Math.max(firstS, secondS) - fromS;
        double deltaPa = pressurePa(trace, fromS + deltaS) - pressurePa(trace, fromS);
        if (!(deltaS > 0) || Double.isNaN(deltaPa)) {
            return Optional.empty();
        }
        return Optional.of(
                new CursorReading(deltaS, deltaPa, compliance.map(each -> -each.m3PerPa() * deltaPa / deltaS)));
    }

    /** Pressure at {@code timeS}, Pa, on the straight line between its neighbours; the end's beyond the ends. */
    static double pressurePa(Trace trace, double timeS) {
        int after = trace.indexAt(timeS);
        if (after == 0 || after == trace.size()) {
            return trace.size() == 0 ? Double.NaN : trace.pressurePa(after == 0 ? 0 : after - 1);
        }
        double span = trace.timeS(after) - trace.timeS(after - 1);
        double part = span > 0 ? (timeS - trace.timeS(after - 1)) / span : 1;
        return trace.pressurePa(after - 1) + part * (trace.pressurePa(after) - trace.pressurePa(after - 1));
    }

    /** Change of pressure by time, Pa/s. */
    public double slopePaPerS() {
        return deltaPa / deltaS;
    }

    /** In words, what belongs together in one, pressures in {@code pressure}. */
    public List<String> parts(Unit pressure) {
        return List.of(
                "Δt " + Figures.significant(deltaS, 4) + " s",
                "Δp " + Figures.significant(pressure.differenceFromSi(deltaPa), 4) + " " + pressure.symbol(),
                "slope " + Figures.significant(60 * pressure.differenceFromSi(slopePaPerS()), 4) + " "
                        + pressure.symbol() + "/min",
                leakM3PerS
                        .map(leak -> leak < 0
                                ? "pressure rises, so no leak rate"
                                : "means a leak of " + rate(leak) + " (compliance × slope)")
                        .orElse("no compliance known, so no leak rate"));
    }

    /** What matters most, for places where there is hardly room for that. */
    List<String> fewWords(Unit pressure) {
        List<String> all = parts(pressure);
        return List.of(
                all.get(0),
                all.get(1),
                leakM3PerS
                        .filter(leak -> leak >= 0)
                        .map(leak -> "leak " + rate(leak))
                        .orElse("no leak rate"));
    }

    private static String rate(double m3PerS) {
        return Figures.significant(Figures.cm3PerMin(m3PerS), 3) + " cm³/min";
    }

    /** In a line of words, pressures in {@code pressure}. */
    public String words(Unit pressure) {
        return String.join("   ", parts(pressure));
    }
}
