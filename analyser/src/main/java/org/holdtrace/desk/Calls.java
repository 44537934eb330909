package org.holdtrace.desk;

import java.util.List;
import java.util.function.BooleanSupplier;
import java.util.function.Consumer;
import javax.swing.SwingWorker;
import org.holdtrace.desk.work.Changes;
import org.holdtrace.desk.work.Commands;
import org.holdtrace.desk.work.OpenRecording;
import org.holdtrace.desk.work.Workspace;

/** What the commands do for the desk, one thing at a time: said at the foot, and stopped from there. On the event thread. */
final class Calls {
    private final StatusLine status;
    private final Workspace workspace;
    private final Changes changes;
    private final Output output;
    private final BooleanSupplier otherwiseBusy;
    private SwingWorker<?, ?> working;

    /** @param otherwiseBusy whether something else is being done that a call would get in the way of */
    Calls(StatusLine status, Workspace workspace, Changes changes, Output output, BooleanSupplier otherwiseBusy) {
        this.status = status;
        this.workspace = workspace;
        this.changes = changes;
        this.output = output;
        this.otherwiseBusy = otherwiseBusy;
    }

    /** Whether nothing can be begun now, which it then says. */
    boolean isBusy() {
        if (otherwiseBusy.getAsBoolean() || working != null) {
            status.say("Something is still being done: wait for it, or stop it first");
            return true;
        }
        return false;
    }

    /** Has a command do what {@code words} say; {@code results} hears what it said. */
    void call(String what, List<String> words, Consumer<Commands.Told> results) {
        begin(what);
        for (OpenRecording each : workspace.recordings()) {
            changes.draftOf(each)
                    .filter(draft -> words.contains(each.path().toString()))
                    .ifPresent(draft ->
                            status.refuse(each.path() + ": read without what is kept only as a draft in " + draft));
        }
        // The command reads what stands beside the recordings: first what was changed last has to be there.
        changes.whenKept(() -> working = output.call(words, results, this::over));
    }

    /** Does {@code work}, which says {@link #over} when it is, once what was changed last stands beside the recordings. */
    void execute(String what, SwingWorker<?, ?> work) {
        begin(what);
        changes.whenKept(() -> {
            working = work;
            work.execute();
        });
    }

    private void begin(String what) {
        status.working(what, 0, 0);
        status.nothingRefused();
    }

    /** What was begun is over: what came of it in a sentence, and what went wrong. */
    void over(String sentence, List<String> problems) {
        working = null;
        problems.forEach(status::refuse);
        status.idle(sentence);
    }

    /** Stops what is being done. */
    void cancel() {
        if (working != null) {
            working.cancel(true);
        }
    }
}
