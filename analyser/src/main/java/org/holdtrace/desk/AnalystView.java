package org.holdtrace.desk;

import java.awt.BorderLayout;
import java.awt.Dimension;
import java.awt.event.ComponentAdapter;
import java.awt.event.ComponentEvent;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import javax.swing.BorderFactory;
import javax.swing.JComponent;
import javax.swing.JPanel;
import javax.swing.JScrollPane;
import javax.swing.JSplitPane;
import javax.swing.JTabbedPane;
import org.holdtrace.desk.look.Keyboard;
import org.holdtrace.desk.look.Theme;
import org.holdtrace.desk.view.TraceModel;
import org.holdtrace.desk.view.TraceView;
import org.holdtrace.desk.work.Changes;
import org.holdtrace.desk.work.Described;
import org.holdtrace.desk.work.DeskView;
import org.holdtrace.desk.work.OpenRecording;
import org.holdtrace.desk.work.Workspace;
import org.holdtrace.trace.Boundaries;
import org.holdtrace.trace.Boundary;
import org.holdtrace.wording.ShownUnits;

/** Looking closely: the hold tests, the trace of the one that is chosen, and all that is said about it. */
final class AnalystView implements DeskView {
    /** Width at 100 % type below which trace and result take turns. */
    private static final double LEAST_SIDE_BY_SIDE = 900;

    private final Workspace workspace;
    private final Changes changes;
    private final JComponent welcome;
    private final JPanel whole = new JPanel(new BorderLayout());

    private Theme theme;
    private ShownUnits units;
    private TestList list;
    private TraceView trace;
    private SidePane side;
    private JSplitPane body;
    private OpenRecording shown;
    private boolean cramped;

    /** A view of {@code workspace}, with {@code welcome} in its place as long as that is empty. */
    AnalystView(Workspace workspace, Changes changes, JComponent welcome) {
        this.workspace = workspace;
        this.changes = changes;
        this.welcome = welcome;
        workspace.addListener(this::refresh);
        whole.addComponentListener(new ComponentAdapter() {
            @Override
            public void componentResized(ComponentEvent event) {
                if (body != null && isCramped() != cramped) {
                    body = null;
                    Keyboard.staysOver(whole, AnalystView.this::refresh);
                }
            }
        });
        changes.addListener(this::refresh);
    }

    @Override
    public String title() {
        return "Look closely";
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
        theme = nextTheme;
        units = nextUnits;
        body = null;
        list = null;
        trace = null;
        shown = null;
        refresh();
    }

    private void refresh() {
        if (theme == null) {
            return;
        }
        Optional<OpenRecording> chosen = workspace.chosen();
        JComponent wanted = welcome;
        if (chosen.isPresent()) {
            if (body == null) {
                build(chosen.get());
            }
            list.fill();
            trace(chosen.get());
            side.show(chosen.get(), workspace.chosenTest());
            wanted = body;
        }
        if (whole.getComponentCount() == 0 || whole.getComponent(0) != wanted) {
            boolean isElsewhere = Keyboard.isBeside(whole);
            whole.removeAll();
            whole.add(wanted, BorderLayout.CENTER);
            whole.revalidate();
            whole.repaint();
            // What had the keyboard is gone: it goes on where one looks next. Who has it elsewhere keeps it.
            if (!isElsewhere) {
                (wanted == welcome ? welcome : list).requestFocusInWindow();
            }
        }
    }

    private void trace(OpenRecording recording) {
        if (shown == null || !shown.path().equals(recording.path())) {
            trace.begin(model(recording));
        } else if (!shown.equals(recording)) {
            trace.setModel(model(recording));
        }
        shown = recording;
    }

    private TraceModel model(OpenRecording recording) {
        return new TraceModel(recording.pyramid(), recording.tests(), recording.results(), units.pressure());
    }

    private void build(OpenRecording recording) {
        list = new TestList(workspace, theme, units);
        trace = new TraceView(model(recording), theme);
        trace.setMover(this::move);
        trace.keysWorkIn(list, Set.of("HOME"));
        trace.bind("UP", () -> list.step(-1));
        trace.bind("DOWN", () -> list.step(1));
        shown = recording;
        int tab = side == null ? 0 : side.inFront();
        side = new SidePane(changes, theme, units);
        side.front(tab);
        JScrollPane scroll =
                new JScrollPane(list, JScrollPane.VERTICAL_SCROLLBAR_AS_NEEDED, JScrollPane.HORIZONTAL_SCROLLBAR_NEVER);
        scroll.setBorder(BorderFactory.createEmptyBorder());
        scroll.setMinimumSize(new Dimension((int) theme.scaled(140), 50));
        side.setMinimumSize(new Dimension((int) theme.scaled(220), 50));
        trace.setMinimumSize(new Dimension(200, 100));
        cramped = isCramped();
        JComponent right;
        if (cramped) {
            JTabbedPane tabs = new JTabbedPane();
            tabs.setName("beside the list");
            tabs.addTab("Trace", trace);
            tabs.addTab("Leak and setup", side);
            right = tabs;
        } else {
            right = split(trace, side, 0.62);
        }
        body = split(scroll, right, cramped ? 0.28 : 0.22);
        for (JComponent each : List.of(body, right)) {
            each.setBorder(BorderFactory.createEmptyBorder());
        }
        body.setName("analyst");
    }

    /** Whether trace and result side by side would leave room for neither, as large type in a small window does. */
    private boolean isCramped() {
        return whole.getWidth() > 0 && whole.getWidth() < theme.scaled(LEAST_SIDE_BY_SIDE);
    }

    private void move(int holdTest, Boundary boundary, double toS) {
        workspace
                .chosen()
                .ifPresent(recording -> changes.change(
                        recording,
                        boundary.label() + (recording.found().size() > 1 ? " of hold test " + holdTest : ""),
                        before -> new Described(
                                before.sheet(),
                                before.notes()
                                        .with(
                                                holdTest,
                                                boundary,
                                                Boundaries.of(recording.found().get(holdTest - 1))
                                                        .at(boundary)
                                                        .orElseThrow(),
                                                toS))));
    }

    private JSplitPane split(JComponent first, JComponent second, double share) {
        JSplitPane pane = new JSplitPane(JSplitPane.HORIZONTAL_SPLIT, true, first, second);
        pane.setResizeWeight(share);
        first.setPreferredSize(new Dimension((int) (share * 1300), 500));
        second.setPreferredSize(new Dimension((int) ((1 - share) * 1300), 500));
        return pane;
    }
}
