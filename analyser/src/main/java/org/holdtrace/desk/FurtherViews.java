package org.holdtrace.desk;

import java.util.List;
import org.holdtrace.desk.work.DeskState;
import org.holdtrace.desk.work.DeskView;
import org.holdtrace.desk.work.Workspace;

/** The views beside the analyst's, in the order of their tabs. */
final class FurtherViews {
    private FurtherViews() {}

    /** Makes each of them for the window that is being opened. */
    static List<DeskView> of(Workspace workspace, DeskState state) {
        return List.of(new CompareView(workspace));
    }
}
