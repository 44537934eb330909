package org.holdtrace.desk.classroom;

import java.util.Optional;
import org.holdtrace.estimate.HoldTestResult.Outcome;
import org.holdtrace.wording.ShownUnits;

/** How the verdict on a line is come by. Takes a while: never called on the event thread. */
@FunctionalInterface
interface Verdict {
    /**
     * The verdict.
     *
     * @param headline a few words for the back row
     * @param detail the figures behind it
     * @param truth what is the matter in truth, where that is known; else nothing
     * @param outcome what it says of the limit, where there is one
     */
    record Told(String headline, String detail, String truth, Optional<Outcome> outcome) {
        /** Where the truth is not known. */
        Told(String headline, String detail, Optional<Outcome> outcome) {
            this(headline, detail, "", outcome);
        }
    }

    /** What can be said of {@code lane} now, in {@code units}. */
    Told of(Lane lane, ShownUnits units);
}
