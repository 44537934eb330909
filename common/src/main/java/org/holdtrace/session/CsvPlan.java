package org.holdtrace.session;

import java.util.List;

/**
 * What a person says the columns of a trace are, where its header does not tell.
 *
 * @param names a header cell for each column, such as {@code pressure [psi]}; an empty one keeps the column out
 * @param firstRowIsData whether there is no header line at all
 */
public record CsvPlan(List<String> names, boolean firstRowIsData) {
    public CsvPlan {
        names = List.copyOf(names);
    }
}
