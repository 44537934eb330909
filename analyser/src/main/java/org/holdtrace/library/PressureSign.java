package org.holdtrace.library;

import java.math.BigDecimal;
import java.math.RoundingMode;
import org.holdtrace.quantity.Unit;
import org.holdtrace.session.InputException;
import org.holdtrace.trace.Trace;

/** Pressures below any that oil can have: a transducer wired backwards, a calibration of the wrong sign, a lost signal. */
final class PressureSign {
    /** No gauge pressure lies below a vacuum, -1 bar; the rest is room for the error of a zero. */
    private static final double LOWEST_PA = -3e5;

    /** A trace that goes this much further below zero than above it is upside down. */
    private static final double UPSIDE_DOWN = 2;

    private PressureSign() {}

    /**
     * A sentence about readings no oil gives, empty where there are none. A single such reading is a fault of the signal
     * and is not looked at.
     *
     * @throws InputException where the whole trace is upside down
     */
    static String look(String file, Trace trace) throws InputException {
        double lowest = Double.POSITIVE_INFINITY;
        double highest = Double.NEGATIVE_INFINITY;
        for (int i = 1; i < trace.size(); i++) {
            double a = trace.pressurePa(i - 1);
            double b = trace.pressurePa(i);
            lowest = Math.min(lowest, Math.max(a, b));
            highest = Math.max(highest, Math.min(a, b));
        }
        if (!(lowest < LOWEST_PA)) {
            return "";
        }
        if (-lowest > UPSIDE_DOWN * Math.max(0, highest)) {
            throw new InputException(
                    file,
                    "",
                    "pressures down to " + bar(lowest) + " bar and none above " + bar(highest) + " bar",
                    "gauge pressure, which cannot lie below a vacuum, -1 bar: is the transducer wired the wrong way round,"
                            + " or the sign of its calibration wrong?");
        }
        return "readings go down to " + bar(lowest)
                + " bar, below a vacuum: the transducer's signal was lost there, or its calibration is wrong";
    }

    private static String bar(double pa) {
        return BigDecimal.valueOf(Unit.BAR.fromSi(pa))
                .setScale(1, RoundingMode.HALF_EVEN)
                .toPlainString();
    }
}
