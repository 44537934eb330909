package org.holdtrace.desk.describe;

import java.awt.BorderLayout;
import java.awt.Component;
import java.awt.Font;
import java.nio.file.Path;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.UnaryOperator;
import javax.swing.BorderFactory;
import javax.swing.JButton;
import javax.swing.JLabel;
import javax.swing.JPanel;
import javax.swing.JScrollPane;
import org.holdtrace.desk.look.Prose;
import org.holdtrace.desk.look.Stack;
import org.holdtrace.desk.look.Theme;
import org.holdtrace.desk.work.Changes;
import org.holdtrace.desk.work.Described;
import org.holdtrace.desk.work.OpenRecording;
import org.holdtrace.session.SetupField;
import org.holdtrace.wording.ShownUnits;

/** The setup of a recording as a form. What is right is taken over as it is typed. On the event thread. */
public final class SetupForm extends JPanel {
    private static final long serialVersionUID = 1L;

    private static final List<Group> GROUPS = List.of(
            new Group(
                    "What is tested",
                    List.of(SetupField.MACHINE, SetupField.COMPONENT, SetupField.COMPONENT_KIND, SetupField.PORT)),
            new Group(
                    "Judged against",
                    List.of(SetupField.LIMIT, SetupField.REFERENCE_PRESSURE, SetupField.RELIEF_SETTING)),
            new Group(
                    "The line",
                    List.of(
                            SetupField.TRAPPED_VOLUME,
                            SetupField.PUMP_STROKE,
                            SetupField.LINE_COMPLIANCE,
                            SetupField.BLED_VOLUME)),
            new Group(
                    "The oil",
                    List.of(SetupField.OIL_GRADE, SetupField.OIL_TEMPERATURE, SetupField.AIR, SetupField.BULK_MODULUS)),
            new Group("The transducer", List.of(SetupField.TRANSDUCER_RANGE, SetupField.TRANSDUCER_ACCURACY)));

    private record Group(String title, List<SetupField> fields) {}

    private final transient Changes changes;
    private final transient Theme theme;
    private final transient ShownUnits units;
    private final transient Map<SetupField, FieldRow> rows = new EnumMap<>(SetupField.class);
    private final Prose where;
    private transient OpenRecording shown;
    private transient Path lastPath;

    public SetupForm(Changes changes, Theme theme, ShownUnits units) {
        super(new BorderLayout());
        this.changes = changes;
        this.theme = theme;
        this.units = units;
        setName("setup");
        int edge = (int) theme.scaled(12);
        Stack stack = new Stack((int) theme.scaled(7));
        stack.setBackground(theme.palette().background());
        stack.setBorder(BorderFactory.createEmptyBorder(edge, edge, edge, edge));
        where = new Prose("where it is kept", theme.font(0.95));
        stack.add(where);
        for (Group group : GROUPS) {
            JLabel title = new JLabel(group.title());
            title.setFont(theme.font(1.05).deriveFont(Font.BOLD));
            title.setBorder(BorderFactory.createCompoundBorder(
                    BorderFactory.createEmptyBorder((int) theme.scaled(8), 0, 2, 0),
                    BorderFactory.createMatteBorder(0, 0, 1, 0, theme.palette().grid())));
            stack.add(title);
            for (SetupField field : group.fields()) {
                FieldRow row = new FieldRow(field, theme, units, beside(field), new Taking());
                rows.put(field, row);
                stack.add(row);
            }
        }
        JScrollPane scroll =
                new JScrollPane(stack, JScrollPane.VERTICAL_SCROLLBAR_ALWAYS, JScrollPane.HORIZONTAL_SCROLLBAR_NEVER);
        scroll.setBorder(BorderFactory.createEmptyBorder());
        add(scroll, BorderLayout.CENTER);
    }

    private JButton beside(SetupField field) {
        if (field != SetupField.TRAPPED_VOLUME) {
            return null;
        }
        JButton button = new JButton("Work out…");
        button.setName("work out volume");
        button.setToolTipText("From bore and stroke, hoses, tubes and adapters");
        button.addActionListener(event -> workOut(button));
        return button;
    }

    private void workOut(Component over) {
        OpenRecording recording = shown;
        if (recording == null) {
            return;
        }
        VolumeDialog.ask(over, theme, units, changes.of(recording).notes().parts())
                .ifPresent(found -> changes.change(
                        recording,
                        FieldWords.label(SetupField.TRAPPED_VOLUME),
                        before -> new Described(
                                before.sheet().with(SetupField.TRAPPED_VOLUME, found.text()),
                                before.notes().withParts(found.parts()))));
    }

    /** Takes what is written over, and keeps what is not right yet. */
    private final class Taking implements FieldRow.Taken {
        @Override
        public void take(SetupField field, String text) {
            change(
                    field,
                    before -> new Described(
                            before.sheet().with(field, text), before.notes().withUnfinished(field, "")));
        }

        @Override
        public void leaveUnfinished(SetupField field, String text) {
            change(field, before -> new Described(before.sheet(), before.notes().withUnfinished(field, text)));
        }

        private void change(SetupField field, UnaryOperator<Described> change) {
            if (shown != null) {
                changes.change(shown, FieldWords.label(field), change);
            }
        }
    }

    /** Shows what is written about {@code recording} now. */
    public void show(OpenRecording recording) {
        shown = recording;
        boolean another = !recording.path().equals(lastPath);
        lastPath = recording.path();
        Described now = changes.of(recording);
        rows.forEach((field, row) -> row.show(
                now.sheet().text(field),
                Optional.ofNullable(now.notes().unfinished().get(field)),
                another));
        String file = recording.input().setupBeside().getFileName().toString();
        Optional<Path> draft = changes.draftOf(recording);
        if (draft.isPresent()) {
            where.say(
                    file + " cannot be written beside the recording. What you change is kept as a draft in "
                            + draft.get() + ": the desk finds it there again, the commands do not look there.",
                    theme.palette().caution());
        } else {
            where.say(
                    "Kept as " + file + " beside the recording, which itself stays as it is. ± is the standard"
                            + " uncertainty.",
                    theme.palette().quiet());
        }
    }
}
