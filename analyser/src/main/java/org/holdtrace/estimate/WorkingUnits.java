package org.holdtrace.estimate;

import java.util.Optional;
import org.holdtrace.quantity.Quantity;

/** The units this package works in, in which everything is of order one, and the way into them. */
final class WorkingUnits {
    static final double PA_PER_BAR = 1e5;
    static final double M3_PER_CM3 = 1e-6;

    private WorkingUnits() {}

    /** What was stated, in a unit of {@code siPerUnit}; {@code otherwise} where nothing was. */
    static double in(double siPerUnit, Optional<Quantity> stated, double otherwise) {
        return stated.isPresent() ? stated.get().value() / siPerUnit : otherwise;
    }
}
