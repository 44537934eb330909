package org.holdtrace.command;

import java.io.PrintStream;
import java.util.ArrayList;
import java.util.List;
import org.holdtrace.estimate.HoldTestResult;
import org.holdtrace.trace.Phase;
import org.holdtrace.wording.SafetyText;

/** Results for people: a block a hold test, and a table of them all at the end where there are several. */
final class ResultText implements ResultSink {
    private final PrintStream out;
    private final List<SummaryRow> rows = new ArrayList<>();
    private boolean remind;

    ResultText(PrintStream out) {
        this.out = out;
    }

    @Override
    public void session(SessionResult session) {
        for (int i = 0; i < session.tests().size(); i++) {
            HoldTestResult result = session.tests().get(i);
            TextBlock block = new TextBlock();
            HoldTestText.write(session, i, block);
            out.print(block.text());
            out.println();
            rows.add(SummaryRow.of(session, result));
            remind |= callsForAReminder(result);
        }
        out.flush();
    }

    @Override
    public void close() {
        if (rows.size() > 1) {
            out.print(SummaryRow.table(rows));
            out.println();
        }
        if (remind) {
            TextBlock block = new TextBlock();
            block.paragraph("", SafetyText.SHORT);
            out.print(block.text());
        }
        out.flush();
    }

    /** Where the result may send somebody to the machine with a spanner, or pressure was still on at the end. */
    private static boolean callsForAReminder(HoldTestResult result) {
        boolean passed =
                result.verdict().isPresent() && result.verdict().get().outcome() == HoldTestResult.Outcome.WITHIN_LIMIT;
        return !passed || result.holdTest().phase(Phase.BLEED_OFF).isEmpty();
    }
}
