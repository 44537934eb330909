package org.holdtrace.desk;

import java.awt.BorderLayout;
import java.awt.GridLayout;
import java.awt.event.ComponentAdapter;
import java.awt.event.ComponentEvent;
import java.util.Optional;
import java.util.function.IntConsumer;
import javax.swing.BorderFactory;
import javax.swing.JButton;
import javax.swing.JComboBox;
import javax.swing.JComponent;
import javax.swing.JPanel;
import javax.swing.JScrollPane;
import org.holdtrace.desk.look.Keyboard;
import org.holdtrace.desk.look.Prose;
import org.holdtrace.desk.look.Stack;
import org.holdtrace.desk.look.Theme;
import org.holdtrace.desk.look.WrappingRow;
import org.holdtrace.desk.work.CaseWork;
import org.holdtrace.desk.work.DeskView;
import org.holdtrace.wording.ShownUnits;

/** A case: which parts of a machine are suspect, what each test showed, which test to do next. On the event thread. */
final class CaseView implements DeskView {
    /** Width at 100 % type below which what is found and why stand one below the other. */
    private static final double LEAST_SIDE_BY_SIDE = 1000;

    private final Runnable choose;
    private final Runnable again;
    private final Runnable report;
    private final IntConsumer plan;
    private final Runnable json;
    private final JPanel whole = new JPanel(new BorderLayout());
    private Theme theme;
    private ShownUnits units;
    private CaseWork.Judged judged;
    private boolean narrow;

    /**
     * @param choose lets somebody choose a case
     * @param again judges the one that is shown anew
     * @param report writes a report on it
     * @param plan writes the sheet and the setup of the test proposed as this number, 1 for the best
     * @param json writes the findings for other programs
     */
    CaseView(Runnable choose, Runnable again, Runnable report, IntConsumer plan, Runnable json) {
        this.json = json;
        this.choose = choose;
        this.again = again;
        this.report = report;
        this.plan = plan;
        whole.setName("case");
        whole.addComponentListener(new ComponentAdapter() {
            @Override
            public void componentResized(ComponentEvent event) {
                if (theme != null && isNarrow() != narrow) {
                    build();
                }
                whole.revalidate(); // the buttons may need another number of rows
            }
        });
    }

    @Override
    public String title() {
        return "Case";
    }

    @Override
    public JComponent component() {
        return whole;
    }

    @Override
    public void beforeLook() {
        whole.removeAll();
    }

    @Override
    public void look(Theme nextTheme, ShownUnits nextUnits) {
        boolean reworded =
                judged != null && (nextUnits.pressure() != units.pressure() || nextUnits.volume() != units.volume());
        theme = nextTheme;
        units = nextUnits;
        build();
        if (reworded) {
            again.run(); // sentences have the units in them
        }
    }

    /** The case that is shown. */
    Optional<CaseWork.Judged> judged() {
        return Optional.ofNullable(judged);
    }

    /** Shows what came of a case. */
    void show(CaseWork.Judged next) {
        judged = next;
        build();
    }

    private boolean isNarrow() {
        return whole.getWidth() > 0 && whole.getWidth() < theme.scaled(LEAST_SIDE_BY_SIDE);
    }

    private void build() {
        Keyboard.staysOver(whole, this::buildAnew);
    }

    private void buildAnew() {
        narrow = isNarrow();
        whole.removeAll();
        whole.add(buttons(), BorderLayout.NORTH);
        Stack found = stack();
        if (judged == null) {
            Prose none = new Prose("no case", theme.font(1.2));
            none.say(
                    "A case (.case.json) puts several hold tests of one machine together: what is complained of, which"
                            + " parts could be it, what was tested so far. Choose one, and every part is told how probable it"
                            + " is that it leaks more than it may, and which test is worth doing next.",
                    theme.palette().text());
            found.add(none);
            whole.add(scroll(found), BorderLayout.CENTER);
        } else {
            Stack why = narrow ? found : stack();
            new CasePane(theme, units, found, why).show(judged);
            JScrollPane left = scroll(found);
            // Its buttons have nothing to be turned over.
            Keyboard.turnsPages(whole, JComponent.WHEN_ANCESTOR_OF_FOCUSED_COMPONENT, left);
            if (narrow) {
                whole.add(left, BorderLayout.CENTER);
            } else {
                JPanel both = new JPanel(new GridLayout(1, 2));
                both.add(left);
                both.add(scroll(why));
                whole.add(both, BorderLayout.CENTER);
            }
        }
        whole.revalidate();
        whole.repaint();
    }

    private Stack stack() {
        Stack stack = new Stack((int) theme.scaled(6));
        stack.setBackground(theme.palette().background());
        int edge = (int) theme.scaled(16);
        stack.setBorder(BorderFactory.createEmptyBorder(edge / 2, edge, edge, edge));
        return stack;
    }

    private static JScrollPane scroll(Stack stack) {
        JScrollPane scroll = new JScrollPane(
                stack, JScrollPane.VERTICAL_SCROLLBAR_AS_NEEDED, JScrollPane.HORIZONTAL_SCROLLBAR_NEVER);
        scroll.setBorder(BorderFactory.createEmptyBorder());
        return scroll;
    }

    private JComponent buttons() {
        JPanel row = new WrappingRow(8);
        row.add(button("choose a case", "Choose a case…", choose));
        if (judged != null) {
            row.add(button("judge again", "Judge it again", again));
            row.add(button("report on case", "Report…", report));
            row.add(button("findings", "For other programs…", json));
            int proposed = judged.findings().next().size();
            if (proposed > 0) {
                JComboBox<Integer> which = new JComboBox<>();
                for (int i = 1; i <= proposed; i++) {
                    which.addItem(i);
                }
                which.setName("which test");
                which.getAccessibleContext().setAccessibleName("which of the tests proposed, 1 for the best");
                which.setToolTipText("Which of the tests proposed, 1 for the best");
                row.add(button(
                        "plan test", "Sheet and setup for test", () -> plan.accept(which.getSelectedIndex() + 1)));
                row.add(which);
            }
        }
        return row;
    }

    private static JButton button(String name, String words, Runnable action) {
        JButton button = new JButton(words);
        button.setName(name);
        button.addActionListener(event -> action.run());
        return button;
    }
}
