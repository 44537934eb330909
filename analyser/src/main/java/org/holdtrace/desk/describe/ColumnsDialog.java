package org.holdtrace.desk.describe;

import java.awt.BorderLayout;
import java.awt.Component;
import java.awt.Dialog;
import java.awt.Dimension;
import java.awt.FlowLayout;
import java.awt.Window;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import javax.swing.DefaultComboBoxModel;
import javax.swing.JButton;
import javax.swing.JCheckBox;
import javax.swing.JComboBox;
import javax.swing.JDialog;
import javax.swing.JLabel;
import javax.swing.JPanel;
import javax.swing.SwingUtilities;
import org.holdtrace.desk.look.Dialogs;
import org.holdtrace.desk.look.Hover;
import org.holdtrace.desk.look.Prose;
import org.holdtrace.desk.look.Stack;
import org.holdtrace.desk.look.Theme;
import org.holdtrace.desk.look.WrappingRow;
import org.holdtrace.session.CsvHead;
import org.holdtrace.session.CsvPlan;

/** Asks what the columns of a trace are where its header does not tell. A unit is never supposed, only read. */
public final class ColumnsDialog {
    private static final String NOT_USED = "not used";
    private static final String TIME = "time";
    private static final String PRESSURE = "pressure";
    private static final List<String> ROLES =
            List.of(NOT_USED, TIME, PRESSURE, "oil temperature", "ambient temperature");
    private static final String ASK = "which unit?";
    private static final List<String> TIMES = List.of("s", "ms", "min", "h", "UTC");
    private static final List<String> PRESSURES = List.of("bar", "psi", "kPa", "MPa", "Pa", "mbar");
    private static final List<String> TEMPERATURES = List.of("degC", "degF", "K");
    private static final int ROWS_SHOWN = 3;
    /** Widths at 100 % type, pixels. */
    private static final int WIDEST_NAME = 200;

    private static final int WIDEST_BEGINNING = 260;

    private final JDialog dialog;
    private final CsvHead head;
    private final List<JComboBox<String>> roles = new ArrayList<>();
    private final List<JComboBox<String>> units = new ArrayList<>();
    private final JCheckBox firstRowIsData = new JCheckBox("The first line is numbers already, there is no header");
    private final JButton use = new JButton("Read it so");
    private boolean confirmed;

    private ColumnsDialog(Component over, Theme theme, CsvHead head, List<Path> files) {
        this.head = head;
        dialog = new JDialog(
                over instanceof Window window ? window : SwingUtilities.getWindowAncestor(over),
                "What are the columns?",
                Dialog.ModalityType.APPLICATION_MODAL);
        dialog.setName("columns");
        Prose words = new Prose("columns question", theme.font(1));
        words.say(
                (files.size() == 1
                                ? files.get(0).getFileName() + " does not tell"
                                : files.size() + " traces (" + files.get(0).getFileName() + ", …) do not tell")
                        + " what the columns are, or in which unit. The answer is kept beside the trace; the trace itself"
                        + " stays as it is.",
                theme.palette().text());
        Stack table = table(theme);
        firstRowIsData.setName("first row is data");
        firstRowIsData.setSelected(head.names().stream().allMatch(ColumnsDialog::isNumber));
        use.setName("use columns");
        use.addActionListener(event -> {
            confirmed = true;
            dialog.dispose();
        });
        JButton leave = new JButton("Leave it out");
        leave.setName("leave columns");
        leave.addActionListener(event -> dialog.dispose());
        JPanel buttons = new JPanel(new FlowLayout(FlowLayout.TRAILING));
        buttons.add(leave);
        buttons.add(use);
        JPanel foot = new JPanel(new BorderLayout());
        foot.add(firstRowIsData, BorderLayout.NORTH);
        foot.add(buttons, BorderLayout.SOUTH);
        Dialogs.fill(dialog, theme, table, foot, use, 800, 430).add(words, BorderLayout.NORTH);
        judge();
    }

    /**
     * Asks and waits, on the event thread.
     *
     * @param files the traces with this head
     * @return empty where nobody knows
     */
    public static Optional<CsvPlan> ask(Component over, Theme theme, CsvHead head, List<Path> files) {
        ColumnsDialog asking = new ColumnsDialog(over, theme, head, files);
        asking.dialog.setVisible(true);
        return asking.confirmed ? Optional.of(asking.plan()) : Optional.empty();
    }

    /** A sentence for each column, its parts side by side as far as there is room. */
    private Stack table(Theme theme) {
        Stack table = new Stack(0);
        List<JLabel> names = new ArrayList<>();
        for (int i = 0; i < head.names().size(); i++) {
            String name = head.names().get(i);
            JComboBox<String> role = new JComboBox<>(ROLES.toArray(new String[0]));
            JComboBox<String> unit = new JComboBox<>();
            role.setName("column " + (i + 1) + " is");
            unit.setName("column " + (i + 1) + " in");
            unit.setPrototypeDisplayValue(ASK);
            role.getAccessibleContext().setAccessibleName("column " + name + " is");
            unit.getAccessibleContext().setAccessibleName("unit of column " + name);
            role.addActionListener(event -> {
                offer(unit, (String) role.getSelectedItem(), name);
                judge();
            });
            unit.addActionListener(event -> judge());
            roles.add(role);
            units.add(unit);
            JLabel shown = noWider(name.isEmpty() ? "column " + (i + 1) : name, theme, WIDEST_NAME);
            names.add(shown);
            JLabel begins = noWider("begins with " + begins(i), theme, WIDEST_BEGINNING);
            begins.setForeground(theme.palette().quiet());
            JPanel row = new WrappingRow((int) theme.scaled(5));
            row.add(shown);
            row.add(together("is", role, theme));
            row.add(together("in", unit, theme));
            row.add(begins);
            table.add(row);
            role.setSelectedItem(likely(name));
            offer(unit, (String) role.getSelectedItem(), name);
        }
        int widest = names.stream()
                .mapToInt(each -> each.getPreferredSize().width)
                .max()
                .orElse(0);
        for (JLabel each : names) {
            each.setPreferredSize(new Dimension(widest, each.getPreferredSize().height));
        }
        return table;
    }

    /** A word that stays beside its choice where the row wraps. */
    private static JPanel together(String word, JComboBox<String> choice, Theme theme) {
        JPanel both = new JPanel(new BorderLayout((int) theme.scaled(5), 0));
        both.add(new JLabel(word), BorderLayout.LINE_START);
        both.add(choice, BorderLayout.CENTER);
        return both;
    }

    /** A label whose words are cut where they are long, so that what is to be chosen beside it stays in sight. */
    private static JLabel noWider(String words, Theme theme, int widest) {
        JLabel label = new JLabel(words);
        label.putClientProperty("html.disable", true);
        Dimension whole = label.getPreferredSize();
        int most = (int) theme.scaled(widest);
        if (whole.width > most) {
            label.setPreferredSize(new Dimension(most, whole.height));
            label.setToolTipText(Hover.html(words));
        }
        return label;
    }

    private String begins(int column) {
        List<String> cells = new ArrayList<>();
        for (List<String> row :
                head.rows().subList(0, Math.min(ROWS_SHOWN, head.rows().size()))) {
            cells.add(column < row.size() ? row.get(column) : "");
        }
        return String.join("   ", cells);
    }

    private static boolean isNumber(String cell) {
        return !cell.isEmpty() && cell.chars().allMatch(each -> "0123456789.,-+eE:TZ ".indexOf(each) >= 0);
    }

    /** What a column of that name mostly is; a suggestion to confirm. */
    private static String likely(String name) {
        String words = name.toLowerCase(Locale.ROOT);
        for (String role : List.of("oil temperature", "ambient temperature", PRESSURE, TIME)) {
            if (words.contains(role)) {
                return role;
            }
        }
        return NOT_USED;
    }

    /** The units of {@code role}; one that stands in the column's name is chosen, none is supposed. */
    private static void offer(JComboBox<String> unit, String role, String name) {
        List<String> choices = switch (role) {
            case NOT_USED -> List.of();
            case TIME -> TIMES;
            case PRESSURE -> PRESSURES;
            default -> TEMPERATURES;
        };
        DefaultComboBoxModel<String> model = new DefaultComboBoxModel<>();
        if (!choices.isEmpty()) {
            model.addElement(ASK);
        }
        String chosen = null;
        for (String each : choices) {
            model.addElement(each);
            for (String word : name.split("[^\\p{L}\\p{N}]+", -1)) {
                chosen = word.equalsIgnoreCase(each) ? each : chosen;
            }
        }
        unit.setModel(model);
        unit.setEnabled(!choices.isEmpty());
        if (chosen != null) {
            unit.setSelectedItem(chosen);
        }
    }

    /** It can be read once there is one time, one pressure, no role twice, and a unit for each. */
    private void judge() {
        List<Object> taken = new ArrayList<>();
        boolean whole = true;
        for (int i = 0; i < roles.size(); i++) {
            Object role = roles.get(i).getSelectedItem();
            if (!NOT_USED.equals(role)) {
                whole &= !taken.contains(role) && !ASK.equals(units.get(i).getSelectedItem());
                taken.add(role);
            }
        }
        use.setEnabled(whole && taken.contains(TIME) && taken.contains(PRESSURE));
    }

    private CsvPlan plan() {
        List<String> names = new ArrayList<>();
        for (int i = 0; i < roles.size(); i++) {
            Object role = roles.get(i).getSelectedItem();
            names.add(NOT_USED.equals(role) ? "" : role + " [" + units.get(i).getSelectedItem() + "]");
        }
        return new CsvPlan(names, firstRowIsData.isSelected());
    }
}
