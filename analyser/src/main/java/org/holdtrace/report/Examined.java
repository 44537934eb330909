package org.holdtrace.report;

import java.util.List;
import java.util.Optional;
import org.holdtrace.estimate.HoldTestResult;
import org.holdtrace.session.SessionHeader;
import org.holdtrace.session.TestSetup;
import org.holdtrace.trace.Trace;

/**
 * One recording and what came of it.
 *
 * @param file the recording
 * @param beside the files beside it that it was judged with: a setup, unless the recorded one or none was used, and notes of
 *     what was done by hand
 * @param header what the recording says of instrument and calibration; empty for a trace
 * @param simulated whether it was computed and no oil was ever under pressure
 * @param trace its samples
 * @param setup what was known of the test
 * @param results one for each hold test, in order
 * @param notes a sentence for each thing about the file the reader must know
 */
public record Examined(
        FileProof file,
        List<FileProof> beside,
        Optional<SessionHeader> header,
        boolean simulated,
        Trace trace,
        TestSetup setup,
        List<HoldTestResult> results,
        List<String> notes) {
    public Examined {
        beside = List.copyOf(beside);
        results = List.copyOf(results);
        notes = List.copyOf(notes);
    }
}
