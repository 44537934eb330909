package org.holdtrace.judge;

import java.util.OptionalDouble;

/**
 * A place in the circuit where there is one pressure.
 *
 * @param name its name in the case, unique
 * @param port the port a test line is screwed to, in words
 * @param accessS time it takes to get there, take the line off and blank it, s
 * @param ratingPa rated pressure of the component there, Pa
 * @param volumeM3 oil a test there has under pressure beyond the test line, m³
 * @param cooling radius that governs how fast that oil cools, m
 */
public record Node(String name, String port, double accessS, OptionalDouble ratingPa, double volumeM3, double cooling) {
    /** The reservoir: always at low pressure. */
    public static final String TANK = "tank";

    /** The world: always at low pressure. */
    public static final String OUTSIDE = "outside";

    /** Whether oil that comes here is lost. */
    public static boolean isLow(String name) {
        return name.equals(TANK) || name.equals(OUTSIDE);
    }
}
