package org.holdtrace.command;

import java.util.List;
import org.holdtrace.estimate.HoldTestResult;
import org.holdtrace.session.TestSetup;

/**
 * What came of one input.
 *
 * @param input the file
 * @param setup the setup its tests were judged with
 * @param tests a result for each hold test found, in order
 * @param charts file names of the charts written, one a test; empty where none were asked for
 * @param losses a sentence for each damaged stretch of the recording
 */
record SessionResult(
        InputFile input, TestSetup setup, List<HoldTestResult> tests, List<String> charts, List<String> losses) {
    SessionResult {
        tests = List.copyOf(tests);
        charts = List.copyOf(charts);
        losses = List.copyOf(losses);
    }
}
