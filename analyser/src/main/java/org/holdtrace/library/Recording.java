package org.holdtrace.library;

import java.util.List;
import java.util.Optional;
import org.holdtrace.session.SessionHeader;
import org.holdtrace.session.TestSetup;
import org.holdtrace.trace.Trace;

/**
 * What a file holds.
 *
 * @param trace its samples
 * @param setup the setup recorded with them; unknown for a trace
 * @param header what it says of instrument and calibration; empty for a trace
 * @param notes a sentence for each stretch that was damaged and is missing, and each column that was not used
 */
public record Recording(Trace trace, TestSetup setup, Optional<SessionHeader> header, List<String> notes) {
    public Recording {
        notes = List.copyOf(notes);
    }
}
