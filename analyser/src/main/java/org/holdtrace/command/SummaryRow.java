package org.holdtrace.command;

import java.util.List;
import org.holdtrace.estimate.HoldTestResult;
import org.holdtrace.leak.Law;
import org.holdtrace.wording.Figures;
import org.holdtrace.wording.Phrases;

/** One line of the closing table. */
record SummaryRow(String session, String number, String leak, String at, String law, String verdict) {
    private static final SummaryRow HEADER =
            new SummaryRow("session", "test", "leak, cm³/min (95 %)", "at bar", "law", "verdict");
    private static final int LONGEST_SESSION = 34;

    static SummaryRow of(SessionResult session, HoldTestResult result) {
        String number = Integer.toString(result.holdTest().number());
        String name = session.input().name();
        String verdict;
        if (result.verdict().isPresent()) {
            verdict = result.verdict().get().outcome().label();
        } else {
            verdict = session.setup().limitM3PerS().isPresent() ? "no verdict" : "no limit given";
        }
        if (result.leak().isEmpty()) {
            return new SummaryRow(name, number, "no rate", "-", "-", verdict);
        }
        HoldTestResult.Leak leak = result.leak().get();
        String rate = leak.law() == Law.NONE
                ? "none above " + Figures.significant(Figures.cm3PerMin(leak.upper95()), 2)
                : Phrases.rateWithInterval(leak.m3PerS(), leak.lower95(), leak.upper95());
        return new SummaryRow(
                name,
                number,
                rate,
                Figures.significant(Figures.bar(leak.atPa()), 4),
                leak.law().label(),
                verdict);
    }

    /** All rows under a header, columns as wide as they need to be. */
    static String table(List<SummaryRow> rows) {
        int session = HEADER.session.length();
        int leak = HEADER.leak.length();
        for (SummaryRow row : rows) {
            session = Math.max(session, Math.min(LONGEST_SESSION, row.session.length()));
            leak = Math.max(leak, row.leak.length());
        }
        StringBuilder text = new StringBuilder();
        HEADER.append(text, session, leak);
        for (SummaryRow row : rows) {
            row.append(text, session, leak);
        }
        return text.toString();
    }

    private void append(StringBuilder text, int sessionWidth, int leakWidth) {
        left(text, shortened(sessionWidth), sessionWidth);
        right(text, number, 4);
        text.append("  ");
        left(text, leak, leakWidth);
        right(text, at, 6);
        text.append("  ");
        left(text, law, 9);
        text.append(verdict).append(System.lineSeparator());
    }

    /** A name too long for its column keeps its end, where names of one series differ. */
    private String shortened(int width) {
        return session.length() <= width ? session : "…" + session.substring(session.length() - width + 1);
    }

    private static void left(StringBuilder text, String word, int width) {
        text.append(word).append(" ".repeat(Math.max(0, width - word.length()))).append("  ");
    }

    private static void right(StringBuilder text, String word, int width) {
        text.append(" ".repeat(Math.max(0, width - word.length()))).append(word);
    }
}
