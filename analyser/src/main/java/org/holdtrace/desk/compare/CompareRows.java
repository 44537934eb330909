package org.holdtrace.desk.compare;

import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.IntConsumer;
import javax.swing.table.AbstractTableModel;
import org.holdtrace.wording.Phrases;
import org.holdtrace.wording.ShownUnits;

/** One row for each hold test: shown or not, its name, its start, its leak rate, and what that says against the first. */
final class CompareRows extends AbstractTableModel {
    private static final long serialVersionUID = 1L;

    private final transient IntConsumer ticked;
    private transient List<Compared> tests = List.of();
    private transient Set<Integer> hidden = Set.of();
    private transient Comparison comparison = Comparison.of(List.of());
    private transient ShownUnits units = ShownUnits.METRIC;
    private String heading = "";

    /** @param ticked told which row was ticked or unticked */
    CompareRows(IntConsumer ticked) {
        this.ticked = ticked;
    }

    void show(List<Compared> nextTests, Set<Integer> nextHidden, Comparison nextComparison, ShownUnits nextUnits) {
        boolean sameShape = nextTests.size() == tests.size()
                && nextComparison.heading(nextUnits).equals(heading);
        tests = nextTests;
        hidden = Set.copyOf(nextHidden);
        comparison = nextComparison;
        units = nextUnits;
        heading = comparison.heading(units);
        if (sameShape && !tests.isEmpty()) {
            fireTableRowsUpdated(0, tests.size() - 1);
        } else {
            fireTableStructureChanged();
        }
    }

    @Override
    public int getRowCount() {
        return tests.size();
    }

    @Override
    public int getColumnCount() {
        return 5;
    }

    @Override
    public String getColumnName(int column) {
        return switch (column) {
            case 0 -> "shown";
            case 1 -> "hold test";
            case 2 -> "start of the hold";
            case 3 -> heading;
            default -> "against the first";
        };
    }

    /** Where the figures of {@code column} come from, if it has any. */
    static Optional<String> origin(int column) {
        return switch (column) {
            case 2 ->
                Optional.of("Mean pressure of the first tenth of a second of the hold, the zero error taken off.");
            case 3 ->
                Optional.of(
                        "Each test's leak by the laws that fit it, as in its leak against pressure, at one pressure for"
                                + " all: the lowest that any test here is stated at. In brackets 95 % of the draws of everything"
                                + " in doubt.");
            case 4 ->
                Optional.of("Whether the 95 % interval of this test and that of the first leave a gap between them: a"
                        + " strict question, for two leaks may differ though their intervals overlap.");
            default -> Optional.empty();
        };
    }

    @Override
    public Class<?> getColumnClass(int column) {
        return column == 0 ? Boolean.class : String.class;
    }

    @Override
    public boolean isCellEditable(int row, int column) {
        return column == 0;
    }

    @Override
    public void setValueAt(Object value, int row, int column) {
        if (!value.equals(getValueAt(row, column))) {
            ticked.accept(row);
        }
    }

    @Override
    public Object getValueAt(int row, int column) {
        boolean shown = !hidden.contains(row);
        if (column == 0) {
            return shown;
        }
        if (column == 1) {
            return (row + 1) + "  " + tests.get(row).name();
        }
        if (column == 2) {
            return tests.get(row)
                    .startPa()
                    .map(pa -> Phrases.pressure(pa, units))
                    .orElse("no hold");
        }
        if (!shown) {
            return "";
        }
        int among = row - (int) hidden.stream().filter(each -> each < row).count();
        return column == 3 ? comparison.rateWords(among, units) : comparison.words(among);
    }
}
