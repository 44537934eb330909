package org.holdtrace.desk.classroom;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.holdtrace.leak.LeakLaw;

/** Where a simulated line lost oil, and since when. Written on the line's thread, read on others; all methods lock. */
final class Past {
    /** Older changes are of hold tests whose samples are gone as well. */
    private static final int MOST_CHANGES = 256;

    /** Oil is lost by {@code law} from {@code atS} on, s on the line's clock. */
    private record Change(double atS, LeakLaw law) {}

    private final List<Change> changes = new ArrayList<>();

    /** From {@code atS} on oil is lost by {@code law}; no change where it is as before. */
    synchronized void change(double atS, LeakLaw law) {
        if (!changes.isEmpty() && now().equals(law)) {
            return;
        }
        if (changes.size() == MOST_CHANGES) {
            changes.remove(0);
        }
        changes.add(new Change(atS, law));
    }

    /** By what oil was lost all the time from {@code fromS} to {@code toS}; nothing where that changed meanwhile. */
    synchronized Optional<LeakLaw> throughout(double fromS, double toS) {
        Optional<LeakLaw> found = Optional.empty();
        for (Change each : changes) {
            if (each.atS() <= fromS) {
                found = Optional.of(each.law());
            } else if (each.atS() < toS) {
                return Optional.empty();
            }
        }
        return found;
    }

    /** By what oil is lost now; by nothing before the first change. */
    synchronized LeakLaw now() {
        return changes.isEmpty()
                ? LeakLaw.none()
                : changes.get(changes.size() - 1).law();
    }
}
