package org.holdtrace.desk.work;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.LongSupplier;
import java.util.function.UnaryOperator;
import javax.swing.SwingUtilities;
import org.holdtrace.estimate.EstimateOptions;

/**
 * What a person changes about recordings: each change can be undone and done again, is kept beside the recording without
 * being asked, and the result follows. On the event thread.
 */
public final class Changes implements AutoCloseable {
    /** Keystrokes in one field that follow one another faster than this are one change, ms. */
    private static final long ONE_CHANGE_MS = 1500;

    private static final int MOST_STEPS = 500;

    private record Step(Path path, String what, Described before, Described after) {}

    /** Who hears of what needs a person. */
    public interface Trouble {
        /** Somebody else changed {@code file}, so what was changed here could not be kept in it. */
        void changedByAnother(Path recording, Path file);

        /** {@code file} could not be written, and why; what belongs in it is kept in {@code draft}. */
        void keptAsDraft(Path file, Path draft, IOException why);

        /** What was a draft stands beside {@code recording} now. */
        void keptBesideAgain(Path recording);

        /** {@code file} could not be written, and why. */
        void notKept(Path file, IOException why);

        /** The result could not be worked out anew. */
        void notWorkedOut(Path recording, Throwable why);
    }

    private final Workspace workspace;
    private final Trouble trouble;
    private final LongSupplier clockMs;
    private final Keeper keeper;
    private final Reckoner reckoner;
    private final Map<Path, Described> latest = new HashMap<>();
    private final Drafts drafts;
    private final Map<Path, Path> drafted = new HashMap<>();
    private final Deque<Step> done = new ArrayDeque<>();
    private final Deque<Step> undone = new ArrayDeque<>();
    private final List<Runnable> listeners = new ArrayList<>();
    private EstimateOptions asked = EstimateOptions.none();
    private long lastMs;

    /** Changes to what is in {@code workspace}. */
    public Changes(Workspace workspace, Drafts drafts, Trouble trouble) {
        this(workspace, drafts, trouble, () -> System.nanoTime() / 1_000_000);
    }

    Changes(Workspace workspace, Drafts drafts, Trouble trouble, LongSupplier clockMs) {
        this.drafts = drafts;
        this.workspace = workspace;
        this.trouble = trouble;
        this.clockMs = clockMs;
        keeper = new Keeper(drafts, new Keeper.Trouble() {
            @Override
            public void changedByAnother(Path recording, Path file) {
                SwingUtilities.invokeLater(() -> trouble.changedByAnother(recording, file));
            }

            @Override
            public void keptAsDraft(Path recording, Path file, Path draft, IOException why) {
                SwingUtilities.invokeLater(() -> {
                    if (drafted.put(recording, draft) == null) {
                        trouble.keptAsDraft(file, draft, why);
                        tell();
                    }
                });
            }

            @Override
            public void keptBeside(Path recording) {
                SwingUtilities.invokeLater(() -> {
                    if (drafted.remove(recording) != null) {
                        trouble.keptBesideAgain(recording);
                        tell();
                    }
                });
            }

            @Override
            public void failed(Path file, IOException why) {
                SwingUtilities.invokeLater(() -> trouble.notKept(file, why));
            }
        });
        reckoner = new Reckoner(workspace::put, trouble::notWorkedOut);
    }

    /** Calls {@code listener} after every change, undone ones included, before the result has followed. */
    public void addListener(Runnable listener) {
        listeners.add(listener);
    }

    /** Puts a recording on the desk that was just read. */
    public void opened(OpenRecording recording) {
        reckoner.giveUp(recording.path());
        latest.put(recording.path(), recording.described());
        drafted.remove(recording.path());
        if (recording.isDraft()) {
            drafted.put(recording.path(), drafts.folderOf(recording.input()));
        }
        forget(recording.path());
        keeper.read(recording.path(), recording.beside());
        workspace.put(recording);
        if (!recording.asked().equals(asked)) {
            // Results were asked for otherwise while it was being read.
            reckoner.reckon(recording, of(recording), asked);
        }
        tell();
    }

    /** Takes a recording off the desk; what was changed is kept beside it. */
    public void close(Path path) {
        reckoner.giveUp(path);
        latest.remove(path);
        forget(path);
        workspace.remove(path);
        tell();
    }

    private void forget(Path path) {
        done.removeIf(step -> step.path().equals(path));
        undone.removeIf(step -> step.path().equals(path));
    }

    /** What {@code recording} is described as now, which its results may not have followed yet. */
    public Described of(OpenRecording recording) {
        return latest.getOrDefault(recording.path(), recording.described());
    }

    /** Where what was changed about {@code recording} is kept, if not beside it. */
    public Optional<Path> draftOf(OpenRecording recording) {
        return Optional.ofNullable(drafted.get(recording.path()));
    }

    /** What results are asked for beyond the setups. */
    public EstimateOptions asked() {
        return asked;
    }

    /** Asks for results otherwise, of all that is on the desk and all that comes. */
    public void ask(EstimateOptions next) {
        if (!next.equals(asked)) {
            asked = next;
            for (OpenRecording recording : workspace.recordings()) {
                reckoner.reckon(recording, of(recording), asked);
            }
            tell();
        }
    }

    /** Whether a result is being worked out. */
    public boolean isBusy() {
        return reckoner.isBusy();
    }

    /**
     * Changes {@code recording}.
     *
     * @param what a few words for the menu: "limit", "hold starts"; changes of the same thing in quick succession are one
     */
    public void change(OpenRecording recording, String what, UnaryOperator<Described> change) {
        Described before = of(recording);
        Described after = change.apply(before);
        if (after.equals(before)) {
            return;
        }
        long now = clockMs.getAsLong();
        Step last = done.peekLast();
        boolean same = last != null
                && last.path().equals(recording.path())
                && last.what().equals(what)
                && (now - lastMs < ONE_CHANGE_MS || isBeingWritten(before, after))
                && undone.isEmpty();
        if (same) {
            done.removeLast();
        }
        done.addLast(new Step(recording.path(), what, same ? last.before() : before, after));
        if (done.size() > MOST_STEPS) {
            done.removeFirst();
        }
        undone.clear();
        lastMs = now;
        apply(recording.path(), after);
    }

    /** Whether a field was unfinished, and still is or is not any more: however long that took, it is one change. */
    private static boolean isBeingWritten(Described before, Described after) {
        return !before.notes().unfinished().equals(after.notes().unfinished())
                && !before.notes().unfinished().isEmpty();
    }

    /** What would be undone next. */
    public Optional<String> undoable() {
        return Optional.ofNullable(done.peekLast()).map(Step::what);
    }

    /** What would be done again next. */
    public Optional<String> redoable() {
        return Optional.ofNullable(undone.peekLast()).map(Step::what);
    }

    /** Takes the last change back. */
    public void undo() {
        Step step = done.pollLast();
        if (step != null) {
            undone.addLast(step);
            look(step.path());
            apply(step.path(), step.before());
        }
    }

    /** Does the change again that was taken back last. */
    public void redo() {
        Step step = undone.pollLast();
        if (step != null) {
            done.addLast(step);
            look(step.path());
            apply(step.path(), step.after());
        }
    }

    /** A change that is taken back unseen would be a riddle. */
    private void look(Path path) {
        if (workspace.chosen().filter(each -> each.path().equals(path)).isEmpty()) {
            workspace.choose(path, 0);
        }
        lastMs = Long.MIN_VALUE / 2;
    }

    private void apply(Path path, Described next) {
        for (OpenRecording recording : workspace.recordings()) {
            if (recording.path().equals(path)) {
                latest.put(path, next);
                keeper.keep(recording.input(), recording.recording(), next);
                reckoner.reckon(recording, next, asked);
            }
        }
        tell();
    }

    /** Writes what still waits to be kept, then calls {@code then} on the event thread. */
    public void whenKept(Runnable then) {
        keeper.whenKept(() -> SwingUtilities.invokeLater(then));
    }

    /** Writes what is on the desk over what somebody else put beside {@code recording}. */
    public void writeOver(OpenRecording recording) {
        keeper.writeOver(recording.input(), recording.recording(), of(recording));
    }

    /** Takes what stands beside {@code recording} now in the place of what is on the desk. */
    public void takeTheirs(OpenRecording recording) {
        Background.run(recording::readAgain, this::opened, why -> trouble.notWorkedOut(recording.path(), why));
    }

    private void tell() {
        for (Runnable listener : List.copyOf(listeners)) {
            listener.run();
        }
    }

    /** Writes what still waits, and ends. */
    @Override
    public void close() {
        reckoner.close();
        keeper.close();
    }
}
