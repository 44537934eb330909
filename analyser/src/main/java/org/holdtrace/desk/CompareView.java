package org.holdtrace.desk;

import java.util.ArrayList;
import java.util.List;
import javax.swing.JComponent;
import org.holdtrace.desk.compare.ComparePanel;
import org.holdtrace.desk.compare.Compared;
import org.holdtrace.desk.look.Theme;
import org.holdtrace.desk.work.DeskView;
import org.holdtrace.desk.work.OpenRecording;
import org.holdtrace.desk.work.Workspace;
import org.holdtrace.wording.ShownUnits;

/** The hold tests of all recordings on the desk over one another. */
final class CompareView implements DeskView {
    private final ComparePanel panel = new ComparePanel();
    private final Workspace workspace;
    private boolean inFront;

    CompareView(Workspace workspace) {
        this.workspace = workspace;
        workspace.addListener(this::follow);
    }

    @Override
    public String title() {
        return "Compare";
    }

    @Override
    public JComponent component() {
        return panel;
    }

    @Override
    public void look(Theme theme, ShownUnits units) {
        panel.look(theme, units);
    }

    @Override
    public void front(boolean now) {
        inFront = now;
        follow();
    }

    private void follow() {
        if (!inFront) {
            return;
        }
        List<Compared> tests = new ArrayList<>();
        for (OpenRecording recording : workspace.recordings()) {
            for (int i = 0; i < recording.results().size(); i++) {
                String name = new TestList.Entry(recording, i).subject()
                        + Compared.THEN
                        + recording.input().name()
                        + (recording.results().size() > 1 ? " (" + (i + 1) + ")" : "");
                tests.add(new Compared(
                        name, recording.recording().trace(), recording.results().get(i)));
            }
        }
        panel.setTests(tests);
    }
}
