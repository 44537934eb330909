package org.holdtrace.desk.work;

import java.nio.file.Path;
import java.util.HashMap;
import java.util.Map;
import java.util.concurrent.CancellationException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.function.BiConsumer;
import java.util.function.Consumer;
import javax.swing.SwingUtilities;

/**
 * Works results out anew on a thread of its own when something about a recording changes. Only the newest wish of a
 * recording counts: one that is overtaken is given up. Called, and calling back, on the event thread.
 */
final class Reckoner implements AutoCloseable {
    private final ExecutorService thread = Executors.newSingleThreadExecutor(work -> {
        Thread daemon = new Thread(work, "reckoner");
        daemon.setDaemon(true);
        return daemon;
    });
    private final Map<Path, Future<?>> underWay = new HashMap<>();
    private final Map<Path, Described> wanted = new HashMap<>();
    private final Consumer<OpenRecording> ready;
    private final BiConsumer<Path, RuntimeException> failed;

    Reckoner(Consumer<OpenRecording> ready, BiConsumer<Path, RuntimeException> failed) {
        this.ready = ready;
        this.failed = failed;
    }

    /** Will hand on {@code recording} as it is with {@code described}. */
    void reckon(OpenRecording recording, Described described) {
        giveUp(recording.path());
        wanted.put(recording.path(), described);
        underWay.put(recording.path(), thread.submit(() -> work(recording, described)));
    }

    private void work(OpenRecording recording, Described described) {
        try {
            OpenRecording next = recording.with(described);
            SwingUtilities.invokeLater(() -> {
                if (described.equals(wanted.get(recording.path()))) {
                    wanted.remove(recording.path());
                    underWay.remove(recording.path());
                    ready.accept(next);
                }
            });
        } catch (CancellationException e) {
            return; // overtaken, which is no news
        } catch (RuntimeException e) {
            SwingUtilities.invokeLater(() -> failed.accept(recording.path(), e));
        }
    }

    /** Whether something is being worked out. */
    boolean isBusy() {
        return !wanted.isEmpty();
    }

    /** Nobody waits for {@code recording} any more. */
    void giveUp(Path recording) {
        wanted.remove(recording);
        Future<?> before = underWay.remove(recording);
        if (before != null) {
            before.cancel(true);
        }
    }

    @Override
    public void close() {
        thread.shutdownNow();
    }
}
