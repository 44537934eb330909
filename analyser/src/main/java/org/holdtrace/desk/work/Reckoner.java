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
import org.holdtrace.estimate.EstimateOptions;

/**
 * Works results out anew on a thread of its own when something about a recording changes. Only the newest wish of a
 * recording counts: one that is overtaken is given up. Called, and calling back, on the event thread.
 */
final class Reckoner implements AutoCloseable {
    private record Wish(Described described, EstimateOptions asked) {}

    private final ExecutorService thread = Executors.newSingleThreadExecutor(work -> {
        Thread daemon = new Thread(work, "reckoner");
        daemon.setDaemon(true);
        return daemon;
    });
    private final Map<Path, Future<?>> underWay = new HashMap<>();
    private final Map<Path, Wish> wanted = new HashMap<>();
    private final Consumer<OpenRecording> ready;
    private final BiConsumer<Path, RuntimeException> failed;

    Reckoner(Consumer<OpenRecording> ready, BiConsumer<Path, RuntimeException> failed) {
        this.ready = ready;
        this.failed = failed;
    }

    /** Will hand on {@code recording} as it is with {@code described}, asked for what {@code asked} says. */
    void reckon(OpenRecording recording, Described described, EstimateOptions asked) {
        giveUp(recording.path());
        Wish wish = new Wish(described, asked);
        wanted.put(recording.path(), wish);
        underWay.put(recording.path(), thread.submit(() -> work(recording, wish)));
    }

    private void work(OpenRecording recording, Wish wish) {
        try {
            OpenRecording next = recording.with(wish.described(), wish.asked());
            SwingUtilities.invokeLater(() -> {
                if (wish.equals(wanted.get(recording.path()))) {
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
