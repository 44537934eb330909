package org.holdtrace.estimate;

import java.util.Optional;
import java.util.OptionalDouble;

/**
 * What the caller wishes beyond the setup.
 *
 * @param atPa pressure the leak is to be stated at instead of the setup's, Pa
 * @param atTemperatureK oil temperature it is to be carried over to, K
 * @param lineCheck result of a hold test of the test line alone, whose leak is taken off
 */
public record EstimateOptions(OptionalDouble atPa, OptionalDouble atTemperatureK, Optional<HoldTestResult> lineCheck) {
    /** Nothing beyond the setup. */
    public static EstimateOptions none() {
        return new EstimateOptions(OptionalDouble.empty(), OptionalDouble.empty(), Optional.empty());
    }
}
