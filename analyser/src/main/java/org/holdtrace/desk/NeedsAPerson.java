package org.holdtrace.desk;

import java.io.IOException;
import java.nio.file.Path;
import java.util.HashSet;
import java.util.Optional;
import java.util.Set;
import javax.swing.JOptionPane;
import org.holdtrace.desk.work.Changes;
import org.holdtrace.desk.work.OpenRecording;
import org.holdtrace.library.Failures;

/** What {@link Changes} cannot settle alone: asked in a dialog, or said at the foot of the window. */
final class NeedsAPerson implements Changes.Trouble {
    private final DeskWindow desk;
    private final Set<Path> asking = new HashSet<>();

    NeedsAPerson(DeskWindow desk) {
        this.desk = desk;
    }

    @Override
    public void changedByAnother(Path recording, Path file) {
        Optional<OpenRecording> open = desk.workspace().recordings().stream()
                .filter(each -> each.path().equals(recording))
                .findFirst();
        if (open.isEmpty() || !asking.add(file)) {
            return;
        }
        String[] answers = {"Take what stands there", "Write over it", "Decide later"};
        int answer = JOptionPane.showOptionDialog(
                desk.frame(),
                file.getFileName() + " was changed by another program since the desk read it,\n"
                        + "so your last change is not kept in it yet.",
                "Changed by another",
                JOptionPane.DEFAULT_OPTION,
                JOptionPane.WARNING_MESSAGE,
                null,
                answers,
                answers[2]);
        asking.remove(file);
        if (answer == 0) {
            desk.changes().takeTheirs(open.get());
        } else if (answer == 1) {
            desk.changes().writeOver(open.get());
        }
    }

    @Override
    public void keptAsDraft(Path file, Path draft, IOException why) {
        desk.status()
                .refuse(Failures.sentence(file.toString(), why) + ". What was changed is kept as a draft in " + draft
                        + ": the desk finds it there again, the commands do not look there.");
        desk.status().idle("Kept as a draft: " + file.getFileName() + " cannot be written");
    }

    @Override
    public void keptBesideAgain(Path recording) {
        desk.status().idle("Kept beside " + recording.getFileName() + " again, the draft is gone");
    }

    @Override
    public void notKept(Path file, IOException why) {
        desk.status().idle("Not kept: " + Failures.sentence(file.toString(), why));
    }

    @Override
    public void notWorkedOut(Path recording, Throwable why) {
        desk.status().idle(Failures.sentence(recording.toString(), why));
    }
}
