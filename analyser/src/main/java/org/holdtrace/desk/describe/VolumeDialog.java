package org.holdtrace.desk.describe;

import java.awt.BorderLayout;
import java.awt.Component;
import java.awt.Dialog;
import java.awt.FlowLayout;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import javax.swing.BorderFactory;
import javax.swing.JButton;
import javax.swing.JDialog;
import javax.swing.JLabel;
import javax.swing.JPanel;
import javax.swing.JTextField;
import javax.swing.SwingUtilities;
import javax.swing.event.DocumentEvent;
import javax.swing.event.DocumentListener;
import org.holdtrace.desk.look.Dialogs;
import org.holdtrace.desk.look.InSight;
import org.holdtrace.desk.look.Prose;
import org.holdtrace.desk.look.Stack;
import org.holdtrace.desk.look.Theme;
import org.holdtrace.desk.look.WrappingRow;
import org.holdtrace.library.VolumePart;
import org.holdtrace.line.OilVolume;
import org.holdtrace.quantity.Quantity;
import org.holdtrace.quantity.QuantityException;
import org.holdtrace.wording.ShownUnits;

/** Adds the trapped volume up from its parts: bore and stroke, hoses and tubes by their length, adapters. */
final class VolumeDialog {
    /** What came of it: the sum as it is written in the form, and the parts. */
    record Found(String text, List<VolumePart> parts) {}

    private static final List<String> COLUMNS = List.of("Part", "Bore", "Rod in it", "Length or stroke", "or volume");
    private static final List<VolumePart> USUAL = List.of(
            new VolumePart("chamber", "", "", "", ""),
            new VolumePart("hose", "", "", "", ""),
            new VolumePart("adapters", "", "", "", ""));
    /** As wide as the longest example asks for. */
    private static final int FIELD_COLUMNS = 12;

    private static final List<String> EXAMPLES = List.of("hose", "80 ± 0.1 mm", "56 mm", "210 ± 2 mm", "3 ± 1 cm3");

    private final JDialog dialog;
    private final Theme theme;
    private final ShownUnits units;
    private final Stack parts;
    private final List<Row> rows = new ArrayList<>();
    private final Prose total;
    private final JButton use = new JButton("Use this volume");
    private Optional<Found> found = Optional.empty();

    private VolumeDialog(Component over, Theme theme, ShownUnits units, List<VolumePart> before) {
        this.theme = theme;
        this.units = units;
        dialog = new JDialog(
                SwingUtilities.getWindowAncestor(over), "Trapped volume", Dialog.ModalityType.APPLICATION_MODAL);
        dialog.setName("trapped volume");
        parts = new Stack((int) theme.scaled(4));
        total = new Prose("total", theme.font(1.1));
        for (VolumePart part : before.isEmpty() ? USUAL : before) {
            add(part);
        }
        use.setName("use volume");
        use.addActionListener(event -> {
            found = sum().map(each -> new Found(
                    FieldWords.numbers(each, units.volume()) + " "
                            + units.volume().symbol(),
                    written()));
            dialog.dispose();
        });
        JButton more = new JButton("One more part");
        more.setName("one more part");
        more.addActionListener(event -> {
            add(new VolumePart("", "", "", "", ""));
            JTextField name = rows.get(rows.size() - 1).texts.get(0);
            name.requestFocusInWindow();
            // Once it has its place.
            SwingUtilities.invokeLater(() -> InSight.show(name));
        });
        JButton cancel = new JButton("Leave it");
        cancel.setName("leave volume");
        cancel.addActionListener(event -> dialog.dispose());
        JPanel buttons = new JPanel(new FlowLayout(FlowLayout.TRAILING));
        for (JButton each : List.of(more, cancel, use)) {
            buttons.add(each);
        }
        JPanel foot = new JPanel(new BorderLayout(0, 8));
        foot.add(total, BorderLayout.CENTER);
        foot.add(buttons, BorderLayout.SOUTH);
        Dialogs.fill(dialog, theme, parts, foot, use, 1000, 480);
        say();
    }

    /**
     * Asks for the parts and waits, on the event thread.
     *
     * @param parts those written down before
     * @return empty where somebody left it as it was
     */
    static Optional<Found> ask(Component over, Theme theme, ShownUnits units, List<VolumePart> parts) {
        VolumeDialog asking = new VolumeDialog(over, theme, units, parts);
        asking.dialog.setVisible(true);
        return asking.found;
    }

    private void add(VolumePart part) {
        Row row = new Row(part);
        rows.add(row);
        int number = rows.size();
        JPanel fields = new WrappingRow((int) theme.scaled(6));
        for (int column = 0; column < COLUMNS.size(); column++) {
            JTextField text = row.texts.get(column);
            text.setName("part " + number + " " + COLUMNS.get(column));
            text.getAccessibleContext().setAccessibleName(COLUMNS.get(column) + ", part " + number);
            JLabel label = new JLabel(COLUMNS.get(column));
            label.setLabelFor(text);
            JPanel field = new JPanel(new BorderLayout(0, 2));
            field.add(label, BorderLayout.NORTH);
            field.add(text, BorderLayout.CENTER);
            fields.add(field);
        }
        JPanel whole = new JPanel(new BorderLayout());
        whole.add(fields, BorderLayout.CENTER);
        whole.add(row.below, BorderLayout.SOUTH);
        parts.add(whole);
        parts.revalidate();
    }

    private List<VolumePart> written() {
        List<VolumePart> parts = new ArrayList<>();
        for (Row row : rows) {
            if (!row.isBlank()) {
                parts.add(row.part());
            }
        }
        return parts;
    }

    /** The sum; empty where nothing stands there or something is wrong. */
    private Optional<Quantity> sum() {
        List<Quantity> volumes = new ArrayList<>();
        for (Row row : rows) {
            if (!row.isBlank()) {
                try {
                    volumes.add(row.part().volumeM3());
                } catch (QuantityException e) {
                    return Optional.empty();
                }
            }
        }
        return volumes.isEmpty() ? Optional.empty() : Optional.of(OilVolume.sum(volumes));
    }

    private void say() {
        rows.forEach(Row::say);
        Optional<Quantity> sum = sum();
        use.setEnabled(sum.isPresent());
        total.say(
                sum.map(each -> "Together " + FieldWords.of(each, units.volume()))
                        .orElse("Bore and length of each part, or its volume; ± is the standard uncertainty."),
                theme.palette().text());
    }

    /** One part. */
    private final class Row implements DocumentListener {
        private final List<JTextField> texts = new ArrayList<>();
        private final Prose below = new Prose("part note", theme.font(0.9));

        Row(VolumePart part) {
            List<String> before = List.of(part.name(), part.bore(), part.rod(), part.length(), part.volume());
            for (int i = 0; i < before.size(); i++) {
                JTextField text = new JTextField(before.get(i), FIELD_COLUMNS);
                text.putClientProperty("JTextField.placeholderText", "such as " + EXAMPLES.get(i));
                text.getDocument().addDocumentListener(this);
                texts.add(text);
            }
            below.setFocusable(false);
            below.setBorder(BorderFactory.createEmptyBorder(0, (int) theme.scaled(6), 0, 0));
        }

        private String text(int column) {
            return texts.get(column).getText().strip();
        }

        VolumePart part() {
            return new VolumePart(text(0), text(1), text(2), text(3), text(4));
        }

        /** Whether no measure stands in it; a name alone is none. */
        boolean isBlank() {
            return (text(1) + text(2) + text(3) + text(4)).isEmpty();
        }

        void say() {
            if (isBlank()) {
                below.say(" ", theme.palette().quiet());
                return;
            }
            try {
                below.say(
                        "= " + FieldWords.of(part().volumeM3(), units.volume()),
                        theme.palette().quiet());
            } catch (QuantityException e) {
                below.say("✗ " + e.getMessage(), theme.palette().caution());
            }
        }

        @Override
        public void insertUpdate(DocumentEvent event) {
            VolumeDialog.this.say();
        }

        @Override
        public void removeUpdate(DocumentEvent event) {
            VolumeDialog.this.say();
        }

        @Override
        public void changedUpdate(DocumentEvent event) {
            VolumeDialog.this.say();
        }
    }
}
