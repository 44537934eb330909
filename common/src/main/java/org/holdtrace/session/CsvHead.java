package org.holdtrace.session;

import java.util.List;

/**
 * The top of a trace.
 *
 * @param names the cells of its first line
 * @param rows the cells of the first few lines below
 * @param tells whether the first line names and measures all that a trace needs
 */
public record CsvHead(List<String> names, List<List<String>> rows, boolean tells) {
    /** A time and a pressure. */
    private static final int LEAST_COLUMNS = 2;

    public CsvHead {
        names = List.copyOf(names);
        rows = List.copyOf(rows);
    }

    /**
     * Whether a person who knows what the columns are could make a trace of it: two columns hold a number, or an instant,
     * somewhere in the rows. A picture or a program under the name of a trace has none.
     */
    public boolean couldBeTrace() {
        int measured = 0;
        for (int column = 0; column < names.size(); column++) {
            measured += isMeasured(column) ? 1 : 0;
        }
        return measured >= LEAST_COLUMNS;
    }

    private boolean isMeasured(int column) {
        for (List<String> row : rows) {
            if (column < row.size()) {
                char[] cell = row.get(column).toCharArray();
                if (!Double.isNaN(new DecimalCell(true).read(cell, 0, cell.length))
                        || new InstantCell().read(cell, 0, cell.length)) {
                    return true;
                }
            }
        }
        return false;
    }
}
