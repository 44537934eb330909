package org.holdtrace.rig;

import org.holdtrace.leak.Law;
import org.holdtrace.leak.LeakLaw;

/**
 * Where oil is lost.
 *
 * @param component the leak of what is tested
 * @param line the leak of the test line itself
 */
public record Leaks(LeakLaw component, LeakLaw line) {
    private static final double COMPARED_AT_PA = 100e5;
    private static final double NEGLIGIBLE = 0.01;

    /** A component's leak in a tight line. */
    public static Leaks of(LeakLaw component) {
        return new Leaks(component, LeakLaw.none());
    }

    /** Both together at a gauge pressure, m³/s of oil at line pressure. */
    public double flow(double pressurePa) {
        return component.flow(pressurePa) + line.flow(pressurePa);
    }

    double slope(double pressurePa) {
        return component.slope(pressurePa) + line.slope(pressurePa);
    }

    /**
     * The law both together follow; where none of the five fits, the component's. A leak that is less than 1 % of the other
     * at 100 bar does not count.
     */
    public Law law() {
        double a = component.flow(COMPARED_AT_PA);
        double b = line.flow(COMPARED_AT_PA);
        if (b <= NEGLIGIBLE * a || component.law() == line.law()) {
            return component.law();
        }
        if (component.law() == Law.NONE || (component.law() != Law.THRESHOLD && a <= NEGLIGIBLE * b)) {
            return line.law();
        }
        boolean threshold = component.law() == Law.THRESHOLD || line.law() == Law.THRESHOLD;
        return threshold ? component.law() : Law.MIXED;
    }
}
