package org.holdtrace.judge;

import java.util.Optional;
import org.holdtrace.estimate.HoldTestResult;
import org.holdtrace.session.TestSetup;

/**
 * A hold test of the case with what the analysis made of it.
 *
 * @param test how it was made on the machine
 * @param setup what was known of it
 * @param result the leak at the pressure and temperature of the case
 * @param atLoad the same at the pressure the load makes and the temperature the drift is complained of
 */
public record MeasuredTest(CaseTest test, TestSetup setup, HoldTestResult result, Optional<HoldTestResult> atLoad) {
    /** The leak at the pressure of the case, where there is one that something can rest on. */
    public Optional<HoldTestResult.Leak> leak() {
        return leakOf(result);
    }

    /** The leak at the pressure the load makes, likewise. */
    public Optional<HoldTestResult.Leak> leakAtLoad() {
        return atLoad.flatMap(MeasuredTest::leakOf);
    }

    private static Optional<HoldTestResult.Leak> leakOf(HoldTestResult result) {
        return result.nothingRestsOnIt().isPresent() ? Optional.empty() : result.leak();
    }

    /** Why it counts for nothing, as part of a sentence; empty where it counts. */
    public Optional<String> uncounted() {
        if (result.nothingRestsOnIt().isPresent()) {
            return result.nothingRestsOnIt();
        }
        return result.leak().isEmpty() ? Optional.of("it gave no leak rate") : Optional.empty();
    }
}
