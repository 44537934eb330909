package org.holdtrace.session;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.holdtrace.quantity.NearMatch;
import org.holdtrace.quantity.QuantityException;

/** What the header line of a trace says: which column holds what, in which unit. */
final class CsvColumns {
    private final List<String> names;
    private final CsvColumn[] byPlace;
    private final Map<CsvColumn.Role, CsvColumn> byRole = new EnumMap<>(CsvColumn.Role.class);

    private CsvColumns(List<String> names) {
        this.names = List.copyOf(names);
        this.byPlace = new CsvColumn[names.size()];
    }

    /**
     * Reads the cells of the header.
     *
     * @throws InputException for a missing time or pressure column, a missing or unknown unit, a column that stands twice;
     *     all of them at once
     */
    static CsvColumns of(List<String> names, String file, long line) throws InputException {
        CsvColumns columns = new CsvColumns(names);
        List<InputException> problems = new ArrayList<>();
        for (int i = 0; i < names.size(); i++) {
            try {
                columns.add(i);
            } catch (QuantityException e) {
                problems.add(new InputException(
                        file, "line " + line, "column \"" + names.get(i) + "\": " + e.found(), e.expected()));
            }
        }
        for (CsvColumn.Role role : CsvColumn.Role.values()) {
            if (role.isNeeded() && !has(names, role)) {
                problems.add(new InputException(
                        file, "line " + line, "no " + role.label() + " column in " + columns, columns.missing(role)));
            }
        }
        if (!problems.isEmpty()) {
            throw InputException.all(problems);
        }
        return columns;
    }

    /** Whether these are the names of a trace's columns, units aside; tells the separator. */
    static boolean fits(List<String> names) {
        return has(names, CsvColumn.Role.TIME) && has(names, CsvColumn.Role.PRESSURE);
    }

    private static boolean has(List<String> names, CsvColumn.Role role) {
        for (String name : names) {
            if (CsvColumn.Role.of(name) == role) {
                return true;
            }
        }
        return false;
    }

    private void add(int place) {
        CsvColumn.Role role = CsvColumn.Role.of(names.get(place));
        if (role == null) {
            return;
        }
        if (byRole.containsKey(role)) {
            throw new QuantityException("a second " + role.label() + " column", "one");
        }
        byPlace[place] = CsvColumn.of(names.get(place), role);
        byRole.put(role, byPlace[place]);
    }

    private String missing(CsvColumn.Role role) {
        List<String> others = new ArrayList<>();
        for (String name : names) {
            if (CsvColumn.Role.of(name) == null) {
                others.add(name.substring(0, CsvColumn.labelEnd(name)).strip());
            }
        }
        Optional<String> near = NearMatch.of(role.label(), others);
        return "a column " + role.example()
                + near.map(n -> " (is \"" + n + "\" meant to be it?)").orElse("");
    }

    /** How many there are, those kept out included. */
    int count() {
        return byPlace.length;
    }

    /** The column at {@code place}, null for one that is kept out. */
    CsvColumn at(int place) {
        return byPlace[place];
    }

    /** The column of that role, null where there is none. */
    CsvColumn of(CsvColumn.Role role) {
        return byRole.get(role);
    }

    /** The rows of that role's column, null where there is none; the column is empty afterwards. */
    double[] release(CsvColumn.Role role) {
        CsvColumn column = byRole.get(role);
        return column == null ? null : column.release();
    }

    /** Names of the columns that are kept out. */
    List<String> ignored() {
        List<String> ignored = new ArrayList<>();
        for (int i = 0; i < byPlace.length; i++) {
            if (byPlace[i] == null) {
                ignored.add(names.get(i));
            }
        }
        return ignored;
    }

    @Override
    public String toString() {
        return "\"" + String.join("\", \"", names) + "\"";
    }
}
