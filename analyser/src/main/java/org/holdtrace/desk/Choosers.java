package org.holdtrace.desk;

import javax.swing.JFileChooser;
import org.holdtrace.desk.look.FileChooser;
import org.holdtrace.desk.work.DeskState;

/** Dialogs that let somebody choose what is read. On the event thread. */
final class Choosers {
    private Choosers() {}

    /** One that begins where recordings were taken from last. */
    static JFileChooser open(DeskState state, String name, String title) {
        JFileChooser chooser = new FileChooser(state.get("folder", ""));
        chooser.setName(name);
        chooser.setDialogTitle(title);
        return chooser;
    }
}
