package org.holdtrace.command;

import java.util.List;
import org.holdtrace.estimate.HoldTestResult;
import org.holdtrace.library.InputFile;
import org.holdtrace.session.TestSetup;

/**
 * What came of one input.
 *
 * @param input the file
 * @param setup the setup its tests were judged with
 * @param tests a result for each hold test found, in order
 * @param charts file names of the charts written, one a test; empty where none were asked for
 * @param notes a sentence for each thing about the file the reader must know
 */
record SessionResult(
        InputFile input, TestSetup setup, List<HoldTestResult> tests, List<String> charts, List<String> notes) {
    SessionResult {
        tests = List.copyOf(tests);
        charts = List.copyOf(charts);
        notes = List.copyOf(notes);
    }
}
