package org.holdtrace.chart;

import java.util.List;
import java.util.Optional;
import org.holdtrace.estimate.HoldTestResult;
import org.holdtrace.estimate.HoldTestResult.CurvePoint;
import org.holdtrace.wording.ShownUnits;

/**
 * The leak rates that a picture of leak against pressure has room for, in the unit they are shown in.
 *
 * @param highest what has to be in the picture, the limit included where it is not far above the band
 * @param limit the limit, where there is one
 * @param limitFits whether it is in the picture
 */
public record LeakScale(double highest, Optional<Double> limit, boolean limitFits) {
    /** A limit further above the band than this would squash the curve. */
    private static final double FARTHEST_LIMIT = 3;

    /** The axis reaches so far above what is drawn, for the words at the top. */
    public static final double ROOM_ABOVE = 1.22;

    /** The scale for a curve, the leak stated from it, and a limit in m³/s. */
    public static LeakScale of(
            List<CurvePoint> curve,
            Optional<HoldTestResult.Leak> leak,
            Optional<Double> limitM3PerS,
            ShownUnits units) {
        double highest = leak.map(found -> units.flow().fromSi(found.upper95())).orElse(0.0);
        for (CurvePoint point : curve) {
            // Beyond the pressure of the test a valve might open, or not: that doubt must not flatten the rest.
            if (leak.isEmpty() || point.pressurePa() <= leak.get().atPa()) {
                highest = Math.max(highest, units.flow().fromSi(point.upper95()));
            }
        }
        highest = Math.max(1e-9, highest);
        Optional<Double> limit = limitM3PerS.map(units.flow()::fromSi);
        boolean fits = limit.isPresent() && limit.get() <= FARTHEST_LIMIT * highest;
        return new LeakScale(fits ? Math.max(highest, limit.get()) : highest, limit, fits);
    }

    /** The curve up to where, beyond the pressure the leak is stated at, its band leaves the picture. */
    public List<CurvePoint> told(List<CurvePoint> curve, Optional<HoldTestResult.Leak> leak, ShownUnits units) {
        double topM3PerS = units.flow().toSi(ROOM_ABOVE * highest);
        for (int i = 1; i < curve.size(); i++) {
            boolean beyond =
                    leak.isPresent() && curve.get(i).pressurePa() > leak.get().atPa();
            if (beyond && curve.get(i).upper95() > topM3PerS) {
                return curve.subList(0, i);
            }
        }
        return curve;
    }
}
