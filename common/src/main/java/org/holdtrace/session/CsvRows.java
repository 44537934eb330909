package org.holdtrace.session;

import de.siegmar.fastcsv.reader.AbstractBaseCsvCallbackHandler;
import de.siegmar.fastcsv.reader.RecordWrapper;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.holdtrace.trace.Trace;

/** Takes the cells of a trace as the CSV library finds them and puts them straight into columns of numbers. */
final class CsvRows extends AbstractBaseCsvCallbackHandler<Trace> {
    /** Carries an {@link InputException} out through the CSV library, which lets only unchecked ones pass. */
    static final class Refused extends RuntimeException {
        private static final long serialVersionUID = 1L;

        Refused(InputException cause) {
            super(cause);
        }
    }

    private static final int LONGEST_QUOTE = 40;

    private final String file;
    private final boolean decimalComma;
    private final CsvPlan plan;
    private final DecimalCell decimal;
    private final InstantCell instant = new InstantCell();
    private final List<String> header = new ArrayList<>();
    private CsvColumns columns;
    private CsvColumn time;
    private CsvColumn emptyCell;
    private long line;
    private double lastTimeS = Double.NEGATIVE_INFINITY;
    private long firstSecond;
    private int firstNano;
    private long samples;

    /** @param plan what a person says the columns are; null where the header tells */
    CsvRows(String file, boolean decimalComma, CsvPlan plan) {
        this.file = file;
        this.plan = plan;
        this.decimalComma = decimalComma;
        this.decimal = new DecimalCell(decimalComma);
    }

    @Override
    protected void handleBegin(long startingLineNumber) {
        line = startingLineNumber;
        emptyCell = null;
        if (columns == null) {
            header.clear(); // an empty line before the header came as one empty cell
        }
    }

    @Override
    protected void handleField(int index, char[] text, int offset, int length, boolean quoted) {
        int from = offset;
        int to = offset + length;
        while (from < to && isSpace(text[from])) {
            from++;
        }
        while (to > from && isSpace(text[to - 1])) {
            to--;
        }
        if (columns == null) {
            header.add(printable(new String(text, from, to - from)));
            return;
        }
        if (index >= columns.count()) {
            if (to > from) {
                throw refused(
                        "more cells than columns, \"" + quote(text, from, to) + "\" among them",
                        columns.count() + " cells, as in the header"
                                + (decimalComma ? "" : "; a decimal comma needs ; or a tab between the cells"));
            }
            return;
        }
        CsvColumn column = columns.at(index);
        if (column == null) {
            return;
        }
        if (from < to && column.isClock()) {
            column.siCell(instant(column, text, from, to));
        } else if (from == to) {
            column.siCell(Double.NaN); // a temperature may be read more seldom than the pressure
            if (emptyCell == null && column.role().isNeeded()) {
                emptyCell = column; // refused at the end of the row: this may be an empty line
            }
        } else {
            double number = decimal.read(text, from, to);
            if (Double.isNaN(number)) {
                throw badNumber(column, text, from, to);
            }
            column.cell(number);
            if (!column.role().allows(column.siCell())) {
                throw refused(
                        "\"" + quote(text, from, to) + "\" in column \"" + column.name() + "\" is not possible",
                        column.role().possible());
            }
        }
    }

    private static boolean isSpace(char c) {
        return c == ' ' || c == '\t' || c == '\r' || c == '\n' || c == '\u00a0';
    }

    private double instant(CsvColumn column, char[] text, int from, int to) {
        if (!instant.read(text, from, to)) {
            throw refused(
                    "\"" + quote(text, from, to) + "\" in column \"" + column.name() + "\"",
                    "an ISO 8601 instant such as 2026-03-01T08:00:00.250Z");
        }
        if (samples == 0) {
            firstSecond = instant.epochSecond();
            firstNano = instant.nano();
        }
        return (instant.epochSecond() - firstSecond) + (instant.nano() - firstNano) / 1e9;
    }

    private Refused badNumber(CsvColumn column, char[] text, int from, int to) {
        String where = " in column \"" + column.name() + "\"";
        if (decimal.isMixed()) {
            return refused(
                    "\"" + quote(text, from, to) + "\"" + where,
                    "a decimal " + (decimal.mark() == ',' ? "comma" : "point") + ", as in the rows before");
        }
        return refused("\"" + quote(text, from, to) + "\"" + where, "a number");
    }

    @Override
    protected RecordWrapper<Trace> buildRecord() {
        if (isComment() || isEmptyLine()) {
            return null;
        }
        if (columns == null) {
            begin();
        } else {
            endRow();
        }
        return null; // rows are kept here as numbers; the library need not keep them too
    }

    private void begin() {
        try {
            if (plan != null && plan.names().size() != header.size()) {
                throw new InputException(
                        file,
                        "line " + line,
                        header.size() + " columns",
                        plan.names().size() + ", as somebody said; say it anew");
            }
            columns = CsvColumns.of(plan == null ? header : plan.names(), file, line);
        } catch (InputException e) {
            throw new Refused(e);
        }
        time = columns.of(CsvColumn.Role.TIME);
        if (plan != null && plan.firstRowIsData()) {
            for (int i = 0; i < header.size(); i++) {
                char[] cell = header.get(i).toCharArray();
                handleField(i, cell, 0, cell.length, false);
            }
            endRow();
        }
    }

    private void endRow() {
        int cells = getFieldCount();
        if (cells < columns.count()) {
            throw refused(cells + (cells == 1 ? " cell" : " cells"), columns.count() + " cells, as in the header");
        }
        if (emptyCell != null) {
            throw refused("an empty cell in column \"" + emptyCell.name() + "\"", "a number");
        }
        double timeS = time.siCell();
        if (!(timeS >= lastTimeS)) {
            throw refused("time goes back from " + lastTimeS + " s to " + timeS + " s", "time that never decreases");
        }
        lastTimeS = timeS;
        for (int i = 0; i < columns.count(); i++) {
            CsvColumn column = columns.at(i);
            if (column != null) {
                column.keep();
            }
        }
        samples++;
    }

    private Refused refused(String found, String expected) {
        return new Refused(new InputException(file, "line " + line, found, expected));
    }

    private static String quote(char[] text, int from, int to) {
        boolean cut = to - from > LONGEST_QUOTE;
        return printable(new String(text, from, cut ? LONGEST_QUOTE : to - from)) + (cut ? "…" : "");
    }

    /** Line breaks as spaces and other control characters as the sign for what cannot be shown. */
    static String printable(String text) {
        StringBuilder shown = new StringBuilder(text.length());
        for (int i = 0; i < text.length(); i++) {
            char c = text.charAt(i);
            shown.append(c == '\n' || c == '\r' || c == '\t' ? ' ' : Character.isISOControl(c) ? '\uFFFD' : c);
        }
        return shown.toString();
    }

    /** What was read. */
    CsvTraceReader.Reading reading() throws InputException {
        if (columns == null) {
            throw new InputException(
                    file,
                    "",
                    "no header line",
                    "a line such as \"time [s],pressure [bar]\" and rows of numbers below it");
        }
        if (samples == 0) {
            throw new InputException(file, "", "a header line and nothing below it", "rows of numbers");
        }
        Trace trace = new Trace(
                columns.release(CsvColumn.Role.TIME),
                columns.release(CsvColumn.Role.PRESSURE),
                columns.release(CsvColumn.Role.OIL_TEMPERATURE),
                columns.release(CsvColumn.Role.AMBIENT_TEMPERATURE),
                time.isClock() ? Optional.of(Instant.ofEpochSecond(firstSecond, firstNano)) : Optional.empty());
        return new CsvTraceReader.Reading(trace, columns.ignored());
    }
}
