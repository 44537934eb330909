package org.holdtrace.link;

import java.util.List;
import java.util.Optional;
import org.holdtrace.trace.Phase;

/**
 * How a logger is doing, as it travels.
 *
 * @param timeNs when, ns on the logger's steady clock
 * @param session file name of the session that runs
 * @param pressurePa the latest pressure, Pa gauge; NaN where there is none
 * @param phase what the detector sees
 * @param strokes strokes of the hold test at hand
 * @param leakM3PerS the leak as far as can be told, m³/s; NaN where it cannot
 * @param leakUncertaintyM3PerS its standard uncertainty, m³/s; NaN likewise
 * @param advice in words what to do next
 * @param enough whether no more waiting is needed
 * @param faults what is wrong now, in words
 * @param freeBytes room on the disk
 */
public record Status(
        long timeNs,
        Optional<String> session,
        double pressurePa,
        Optional<Phase> phase,
        int strokes,
        double leakM3PerS,
        double leakUncertaintyM3PerS,
        String advice,
        boolean enough,
        List<String> faults,
        long freeBytes) {
    /** What a session is called until its file has a name: a moment, whose end is not that of the recording. */
    public static final String NAMELESS = "not on the disk yet";

    public Status {
        faults = List.copyOf(faults);
    }
}
