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
    public CsvHead {
        names = List.copyOf(names);
        rows = List.copyOf(rows);
    }
}
