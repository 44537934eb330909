package org.holdtrace.library;

import java.util.List;
import org.holdtrace.estimate.HoldTestResult;
import org.holdtrace.session.TestSetup;

/**
 * An input with all that came of it.
 *
 * @param recording what it holds
 * @param setup what it was estimated with
 * @param results one for each of its hold tests, in order
 */
public record Estimated(Recording recording, TestSetup setup, List<HoldTestResult> results) {
    public Estimated {
        results = List.copyOf(results);
    }
}
