package org.holdtrace.serve;

import java.util.List;
import java.util.Optional;
import org.holdtrace.session.SessionHeader;
import org.holdtrace.trace.Phase;

/**
 * How the logger is doing.
 *
 * @param timeNs when, ns on the logger's steady clock
 * @param session file name of the session that runs
 * @param header what a session begun now would have at its head: channels, calibrations, plan
 * @param pressurePa the latest pressure, gauge; NaN where there is none
 * @param phase what the detector sees
 * @param strokes strokes of the hold test at hand
 * @param leakM3PerS the leak as far as can be told now, NaN where it cannot
 * @param leakUncertaintyM3PerS its standard uncertainty
 * @param advice in words what to do next, such as "keep pumping"
 * @param enough whether no more waiting is needed
 * @param faults what is wrong now, in words
 * @param freeBytes room on the disk
 */
public record LoggerState(
        long timeNs,
        Optional<String> session,
        SessionHeader header,
        double pressurePa,
        Optional<Phase> phase,
        int strokes,
        double leakM3PerS,
        double leakUncertaintyM3PerS,
        String advice,
        boolean enough,
        List<String> faults,
        long freeBytes) {
    public LoggerState {
        faults = List.copyOf(faults);
    }
}
