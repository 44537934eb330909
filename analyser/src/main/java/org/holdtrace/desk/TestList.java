package org.holdtrace.desk;

import java.awt.Component;
import java.awt.Font;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import javax.swing.BorderFactory;
import javax.swing.BoxLayout;
import javax.swing.DefaultListModel;
import javax.swing.JList;
import javax.swing.JPanel;
import javax.swing.ListCellRenderer;
import javax.swing.ListSelectionModel;
import javax.swing.text.Position;
import org.holdtrace.desk.look.Hover;
import org.holdtrace.desk.look.Lines;
import org.holdtrace.desk.look.Theme;
import org.holdtrace.desk.work.OpenRecording;
import org.holdtrace.desk.work.Workspace;
import org.holdtrace.estimate.HoldTestResult;
import org.holdtrace.session.TestSetup;
import org.holdtrace.wording.Phrases;
import org.holdtrace.wording.Sentences;
import org.holdtrace.wording.ShownUnits;

/** The hold tests on the desk, one below the other: what was tested, its leak, its verdict in words. */
final class TestList extends JList<TestList.Entry> {
    private static final long serialVersionUID = 1L;

    /**
     * One line of the list.
     *
     * @param recording it belongs to
     * @param index of the hold test in it; 0 where it has none
     */
    record Entry(OpenRecording recording, int index) {
        /** The component first: on one machine it is what tells tests apart. */
        String subject() {
            TestSetup setup = recording.setup();
            String component = Stream.of(setup.component(), setup.port().map(each -> "port " + each))
                    .flatMap(Optional::stream)
                    .collect(Collectors.joining(", "));
            return component.isEmpty()
                    ? setup.machine().orElse(recording.input().stem())
                    : component;
        }

        String which() {
            int count = recording.results().size();
            String machine =
                    recording.setup().machine().map(each -> each + " · ").orElse("");
            return (machine.startsWith(subject()) ? "" : machine)
                    + recording.input().name()
                    + (count > 1 ? " · hold test " + (index + 1) + " of " + count : "");
        }

        String leak(ShownUnits units) {
            return index >= recording.results().size()
                    ? "no hold test found"
                    : recording
                            .results()
                            .get(index)
                            .leak()
                            .map(each -> Phrases.rate(each, units))
                            .orElse(Sentences.NO_RATE);
        }

        String verdict(ShownUnits units) {
            return index >= recording.results().size()
                    ? ""
                    : recording
                            .results()
                            .get(index)
                            .verdict()
                            .map(each -> Phrases.outcome(each, units))
                            .orElse("no limit given");
        }

        /** All of it, for a screen reader and the tooltip. */
        String words(ShownUnits units) {
            return String.join("; ", subject(), which(), "leak: " + leak(units), verdict(units));
        }
    }

    private final transient Workspace workspace;
    private final DefaultListModel<Entry> entries = new DefaultListModel<>();
    private final transient Theme theme;
    private transient ShownUnits units;
    private boolean filling;

    TestList(Workspace workspace, Theme theme, ShownUnits units) {
        this.workspace = workspace;
        this.theme = theme;
        this.units = units;
        setName("hold tests");
        getAccessibleContext().setAccessibleName("hold tests");
        setModel(entries);
        setSelectionMode(ListSelectionModel.SINGLE_SELECTION);
        setCellRenderer(new Cell());
        setBackground(theme.palette().surface());
        addListSelectionListener(event -> {
            Entry chosen = getSelectedValue();
            if (!filling && chosen != null) {
                workspace.choose(chosen.recording().path(), chosen.index());
            }
        });
        fill();
    }

    /** As wide as there is room: what does not fit wraps. */
    @Override
    public boolean getScrollableTracksViewportWidth() {
        return true;
    }

    /** Chooses the test that stands so many lines below the one that is chosen, where there is one. */
    void step(int lines) {
        int next = getSelectedIndex() + lines;
        if (next >= 0 && next < entries.size()) {
            setSelectedIndex(next);
            ensureIndexIsVisible(next);
        }
    }

    /** Letters are keys of the trace; they do not search. */
    @Override
    public int getNextMatch(String prefix, int startIndex, Position.Bias bias) {
        return -1;
    }

    /** Shows what is on the desk now. */
    void fill() {
        List<Entry> wanted = new ArrayList<>();
        int selected = -1;
        for (OpenRecording recording : workspace.recordings()) {
            for (int i = 0; i < Math.max(1, recording.results().size()); i++) {
                if (workspace.chosen().filter(each -> each.equals(recording)).isPresent()
                        && i == workspace.chosenTest()) {
                    selected = wanted.size();
                }
                wanted.add(new Entry(recording, i));
            }
        }
        filling = true;
        // Only what differs: a list that is filled anew loses its place under a reader's fingers.
        for (int i = 0; i < wanted.size(); i++) {
            if (i >= entries.size()) {
                entries.addElement(wanted.get(i));
            } else if (!entries.get(i).equals(wanted.get(i))) {
                entries.set(i, wanted.get(i));
            }
        }
        while (entries.size() > wanted.size()) {
            entries.remove(entries.size() - 1);
        }
        if (selected >= 0 && selected != getSelectedIndex()) {
            setSelectedIndex(selected);
            ensureIndexIsVisible(selected);
        }
        filling = false;
    }

    /** Words that wrap have another height at another width, which the list asks for only once. */
    @Override
    public void setBounds(int x, int y, int width, int height) {
        boolean wider = width != getWidth();
        super.setBounds(x, y, width, height);
        if (wider) {
            setFixedCellHeight(1);
            setFixedCellHeight(-1);
            // As it is now; where it was built anew, as for another look, it has had no height to scroll in before.
            ensureIndexIsVisible(getSelectedIndex());
        }
    }

    private final class Cell extends JPanel implements ListCellRenderer<Entry> {
        private static final long serialVersionUID = 1L;

        private final Lines subject = new Lines();
        private final Lines which = new Lines();
        private final Lines leak = new Lines();
        private final Lines verdict = new Lines();

        Cell() {
            setLayout(new BoxLayout(this, BoxLayout.PAGE_AXIS));
            subject.setFont(theme.font(1).deriveFont(Font.BOLD));
            which.setFont(theme.font(0.9));
            leak.setFont(theme.font(1));
            verdict.setFont(theme.font(1).deriveFont(Font.BOLD));
            for (Lines each : List.of(subject, which, leak, verdict)) {
                add(each);
            }
        }

        /** In as many lines as the list's width asks for. */
        private void wrap(Lines lines, String words) {
            lines.say(words, Math.max(60, TestList.this.getWidth() - (int) theme.scaled(28)));
        }

        @Override
        public Component getListCellRendererComponent(
                JList<? extends Entry> list, Entry entry, int at, boolean selected, boolean focused) {
            wrap(subject, entry.subject());
            wrap(which, entry.which());
            wrap(leak, entry.leak(units));
            wrap(verdict, entry.verdict(units).isEmpty() ? " " : entry.verdict(units));
            subject.setForeground(theme.palette().text());
            which.setForeground(theme.palette().quiet());
            leak.setForeground(theme.palette().text());
            HoldTestResult result = entry.index() < entry.recording().results().size()
                    ? entry.recording().results().get(entry.index())
                    : null;
            verdict.setForeground(
                    result == null || result.verdict().isEmpty()
                            ? theme.palette().quiet()
                            : theme.palette().verdict(result.verdict().get().outcome()));
            setBackground(
                    selected ? theme.palette().background() : theme.palette().surface());
            int bar = (int) theme.scaled(6);
            setBorder(BorderFactory.createCompoundBorder(
                    BorderFactory.createMatteBorder(0, 0, 1, 0, theme.palette().grid()),
                    BorderFactory.createCompoundBorder(
                            BorderFactory.createMatteBorder(
                                    0,
                                    bar,
                                    0,
                                    0,
                                    selected
                                            ? theme.palette().accent()
                                            : theme.palette().surface()),
                            BorderFactory.createEmptyBorder(bar, bar + 2, bar, bar))));
            // Nobody lays a renderer out: it would keep the height of the words before.
            invalidate();
            setToolTipText(Hover.html(entry.words(units)));
            getAccessibleContext().setAccessibleName(entry.words(units));
            return this;
        }
    }
}
