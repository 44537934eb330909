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

    /** The law both together follow; where none of the five fits, the component's. */
    public Law law() {
        Law a = component.law();
        Law b = line.law();
        if (b == Law.NONE || a == b) {
            return a;
        }
        if (a == Law.NONE) {
            return b;
        }
        boolean threshold = a == Law.THRESHOLD || b == Law.THRESHOLD;
        return threshold ? a : Law.MIXED;
    }
}
