package org.holdtrace.library;

import java.util.List;
import org.holdtrace.estimate.HoldTestResult;
import org.holdtrace.session.InputException;

/** A hold test of the test line alone, adapter blanked off. */
public final class LineCheck {
    private LineCheck() {}

    /**
     * The one result of a line check.
     *
     * @param name its file as the user gave it, for messages
     * @param results of the hold tests in it
     * @throws InputException where it is not exactly one hold test, or one without a leak rate
     */
    public static HoldTestResult of(String name, List<HoldTestResult> results) throws InputException {
        if (results.size() != 1) {
            throw new InputException(
                    name, "", results.size() + " hold tests", "exactly one hold test, of the test line alone");
        }
        if (results.get(0).leak().isEmpty()) {
            throw new InputException(name, "", "a hold test that gives no leak rate", "one that does");
        }
        return results.get(0);
    }
}
