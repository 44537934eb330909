package org.holdtrace.desk;

import java.awt.BorderLayout;
import java.awt.Dimension;
import java.util.List;
import java.util.Optional;
import javax.swing.BorderFactory;
import javax.swing.JComponent;
import javax.swing.JPanel;
import javax.swing.JScrollPane;
import javax.swing.JSplitPane;
import org.holdtrace.desk.look.Theme;
import org.holdtrace.desk.view.TraceModel;
import org.holdtrace.desk.view.TraceView;
import org.holdtrace.desk.work.DeskView;
import org.holdtrace.desk.work.OpenRecording;
import org.holdtrace.desk.work.Workspace;
import org.holdtrace.wording.ShownUnits;

/** Looking closely: the hold tests, the trace of the one that is chosen, and all that is said about it. */
final class AnalystView implements DeskView {
    private final Workspace workspace;
    private final JComponent welcome;
    private final JPanel whole = new JPanel(new BorderLayout());

    private Theme theme;
    private ShownUnits units;
    private TestList list;
    private TraceView trace;
    private ResultPane result;
    private JSplitPane body;
    private OpenRecording shown;

    /** A view of {@code workspace}, with {@code welcome} in its place as long as that is empty. */
    AnalystView(Workspace workspace, JComponent welcome) {
        this.workspace = workspace;
        this.welcome = welcome;
        workspace.addListener(this::refresh);
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
            result.show(chosen.get(), workspace.chosenTest(), units);
            wanted = body;
        }
        if (whole.getComponentCount() == 0 || whole.getComponent(0) != wanted) {
            whole.removeAll();
            whole.add(wanted, BorderLayout.CENTER);
            whole.revalidate();
            whole.repaint();
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
        shown = recording;
        result = new ResultPane(theme);
        JScrollPane scroll =
                new JScrollPane(list, JScrollPane.VERTICAL_SCROLLBAR_AS_NEEDED, JScrollPane.HORIZONTAL_SCROLLBAR_NEVER);
        scroll.setBorder(BorderFactory.createEmptyBorder());
        scroll.setMinimumSize(new Dimension((int) theme.scaled(140), 50));
        result.setMinimumSize(new Dimension((int) theme.scaled(220), 50));
        trace.setMinimumSize(new Dimension(200, 100));
        JSplitPane right = split(trace, result, 0.62);
        body = split(scroll, right, 0.22);
        for (JComponent each : List.of(body, right)) {
            each.setBorder(BorderFactory.createEmptyBorder());
        }
        body.setName("analyst");
    }

    private JSplitPane split(JComponent first, JComponent second, double share) {
        JSplitPane pane = new JSplitPane(JSplitPane.HORIZONTAL_SPLIT, true, first, second);
        pane.setResizeWeight(share);
        first.setPreferredSize(new Dimension((int) (share * 1300), 500));
        second.setPreferredSize(new Dimension((int) ((1 - share) * 1300), 500));
        return pane;
    }
}
