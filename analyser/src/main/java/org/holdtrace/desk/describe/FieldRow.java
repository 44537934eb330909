package org.holdtrace.desk.describe;

import java.awt.BorderLayout;
import java.awt.Color;
import java.util.List;
import java.util.Optional;
import javax.swing.JComboBox;
import javax.swing.JComponent;
import javax.swing.JLabel;
import javax.swing.JPanel;
import javax.swing.JTextField;
import javax.swing.SwingUtilities;
import javax.swing.event.DocumentEvent;
import javax.swing.event.DocumentListener;
import org.holdtrace.desk.look.Hover;
import org.holdtrace.desk.look.InSight;
import org.holdtrace.desk.look.Prose;
import org.holdtrace.desk.look.Theme;
import org.holdtrace.session.SetupField;
import org.holdtrace.session.SetupSheet;
import org.holdtrace.wording.ShownUnits;

/** One field of the form: its name, what is written in it, and below that what is wrong with it or what it means. */
final class FieldRow extends JPanel {
    private static final long serialVersionUID = 1L;

    /** Who hears of what is written in a field. */
    interface Taken {
        /** It is right, or blank. */
        void take(SetupField field, String text);

        /** It is not right yet. */
        void leaveUnfinished(SetupField field, String text);
    }

    private final SetupField field;
    private final transient Taken taken;
    private final transient Theme theme;
    private final transient ShownUnits units;
    private final JTextField text;
    private final Prose below;
    private String agreed = "";
    private String lastShown = "";
    private boolean filling;
    private boolean due;

    FieldRow(SetupField field, Theme theme, ShownUnits units, JComponent beside, Taken taken) {
        super(new BorderLayout(6, 2));
        this.field = field;
        this.taken = taken;
        this.theme = theme;
        this.units = units;
        setOpaque(false);
        List<String> choices = FieldWords.choices(field);
        JComponent shown;
        if (choices.isEmpty()) {
            text = new JTextField();
            shown = text;
        } else {
            JComboBox<String> box = new JComboBox<>(choices.toArray(new String[0]));
            box.setEditable(true);
            box.setName(field.path() + " choices");
            box.getAccessibleContext().setAccessibleName(FieldWords.label(field));
            text = (JTextField) box.getEditor().getEditorComponent();
            shown = box;
        }
        text.setName(field.path());
        text.setDropTarget(null); // a recording dropped here is for the window
        text.setToolTipText(Hover.html(FieldWords.help(field)));
        text.putClientProperty("JTextField.placeholderText", "such as " + FieldWords.example(field, units));
        JLabel label = new JLabel(FieldWords.label(field));
        label.setLabelFor(text);
        label.setToolTipText(text.getToolTipText());
        text.getAccessibleContext().setAccessibleName(FieldWords.label(field));
        below = new Prose(field.path() + " note", theme.font(0.9));
        below.setFocusable(false);
        add(label, BorderLayout.NORTH);
        add(shown, BorderLayout.CENTER);
        if (beside != null) {
            add(beside, BorderLayout.EAST);
        }
        add(below, BorderLayout.SOUTH);
        text.getDocument().addDocumentListener(new DocumentListener() {
            @Override
            public void insertUpdate(DocumentEvent event) {
                typed();
            }

            @Override
            public void removeUpdate(DocumentEvent event) {
                typed();
            }

            @Override
            public void changedUpdate(DocumentEvent event) {
                typed();
            }
        });
        say();
    }

    /**
     * Shows what is written, unless that is what stood here and somebody is writing something else.
     *
     * @param counts the last text that was right
     * @param unfinished what is written in its place and not right yet
     */
    void show(String counts, Optional<String> unfinished, boolean another) {
        String next = unfinished.orElse(counts);
        if (another || !next.equals(lastShown) || !counts.equals(agreed)) {
            agreed = counts;
            lastShown = next;
            if (!text.getText().strip().equals(next)) {
                filling = true;
                text.setText(next);
                filling = false;
            }
            say();
        }
    }

    /** A text that is replaced is taken away and put there: both are one change. */
    private void typed() {
        if (!filling && !due) {
            due = true;
            SwingUtilities.invokeLater(this::take);
        }
    }

    private void take() {
        due = false;
        say();
        String now = text.getText().strip();
        if (now.equals(lastShown)) {
            return;
        }
        lastShown = now;
        if (SetupSheet.problem(field, now).isEmpty()) {
            agreed = now;
            taken.take(field, now);
        } else {
            taken.leaveUnfinished(field, now);
        }
    }

    private void say() {
        String now = text.getText().strip();
        Optional<String> problem = SetupSheet.problem(field, now);
        text.putClientProperty("JComponent.outline", problem.isPresent() ? "error" : null);
        String words = problem.map(each -> "✗ " + each
                        + (agreed.isEmpty() ? ". The field counts as empty." : ". Until then “" + agreed + "” counts."))
                .orElse(FieldWords.meaning(field, now, units));
        Color color = problem.isPresent()
                ? theme.palette().caution()
                : theme.palette().quiet();
        below.say(words, color);
        below.setVisible(!words.isEmpty());
        text.getAccessibleContext().setAccessibleDescription(words.isEmpty() ? FieldWords.help(field) : words);
        revalidate();
        if (text.isFocusOwner()) {
            // Once it is laid out: what is said of what is typed may have come to stand below the edge.
            SwingUtilities.invokeLater(() -> InSight.show(text));
        }
    }
}
