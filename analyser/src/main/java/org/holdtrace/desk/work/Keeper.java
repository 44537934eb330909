package org.holdtrace.desk.work;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.TimeUnit;
import org.holdtrace.library.InputFile;
import org.holdtrace.library.Recording;
import org.holdtrace.library.WorkNotes;

/**
 * Keeps what was changed about recordings in the files beside them, at once, on a thread of its own; changes that follow
 * one another fast, as when a boundary is dragged, are written together. A file that somebody else has changed since it
 * was read is left alone, and that is told. Recordings themselves are never written to.
 */
final class Keeper implements AutoCloseable {
    /** From one writing to the next, ms: so much, and the writing itself, is what a crash may cost. */
    static final long BETWEEN_MS = 200;

    private static final long LONGEST_CLOSE_S = 10;

    /** Who hears of trouble, on the keeper's thread. */
    interface Trouble {
        /** Somebody else changed {@code file}, so it was not written. */
        void changedByAnother(Path recording, Path file);

        /** {@code file} could not be written; what belongs in it is kept in {@code draft}. */
        void keptAsDraft(Path recording, Path file, Path draft, IOException why);

        /** All that was changed about {@code recording} stands beside it. */
        void keptBeside(Path recording);

        /** {@code file} could not be written, and nothing was kept. */
        void failed(Path file, IOException why);
    }

    private record Wanted(InputFile input, Recording recording, Described described) {}

    private final ScheduledExecutorService thread = Executors.newSingleThreadScheduledExecutor(work -> {
        Thread daemon = new Thread(work, "keeper");
        daemon.setDaemon(true);
        return daemon;
    });
    private final Drafts drafts;
    private final Trouble trouble;
    private final Map<Path, Beside> known = new LinkedHashMap<>();
    private final Map<Path, Beside> first = new LinkedHashMap<>();
    private final Map<Path, Wanted> waiting = new LinkedHashMap<>();
    private long wroteLastNs = System.nanoTime() - TimeUnit.MILLISECONDS.toNanos(BETWEEN_MS);

    Keeper(Drafts drafts, Trouble trouble) {
        this.drafts = drafts;
        this.trouble = trouble;
    }

    /** Learns what stands beside a recording that was just read. */
    synchronized void read(Path recording, Beside beside) {
        known.put(recording, beside);
        first.put(recording, beside);
    }

    /** Will write {@code described}: at once, or {@value #BETWEEN_MS} ms after the last writing. */
    synchronized void keep(InputFile input, Recording recording, Described described) {
        if (thread.isShutdown()) {
            return; // the window is closing, and nobody changes anything any more
        }
        boolean isUnderWay = !waiting.isEmpty();
        waiting.put(input.path(), new Wanted(input, recording, described));
        if (!isUnderWay) {
            long sinceNs = System.nanoTime() - wroteLastNs;
            // What goes wrong is told where it happens.
            var unused = thread.schedule(
                    this::writeAll, TimeUnit.MILLISECONDS.toNanos(BETWEEN_MS) - sinceNs, TimeUnit.NANOSECONDS);
        }
    }

    /** Forgets what somebody else did to the files beside {@code recording}: the next change writes over it. */
    synchronized void writeOver(InputFile input, Recording recording, Described described) {
        thread.execute(() -> {
            try {
                read(input.path(), Beside.read(input));
                keep(input, recording, described);
            } catch (IOException e) {
                trouble.failed(input.setupBeside(), e);
            }
        });
    }

    /** Writes what waits, then calls {@code then} on the keeper's thread. */
    void whenKept(Runnable then) {
        thread.execute(() -> {
            writeAll();
            then.run();
        });
    }

    private void writeAll() {
        Map<Path, Wanted> now;
        synchronized (this) {
            now = new LinkedHashMap<>(waiting);
            waiting.clear();
            wroteLastNs = System.nanoTime();
        }
        now.values().forEach(this::write);
    }

    private void write(Wanted wanted) {
        Path recording = wanted.input().path();
        Beside before;
        Beside next;
        synchronized (this) {
            before = known.get(recording);
            next = Beside.of(wanted.described(), wanted.recording(), first.get(recording));
        }
        boolean setup = false;
        boolean notes = false;
        Path file = wanted.input().setupBeside();
        try {
            setup = write(recording, file, before.setup(), next.setup());
            file = WorkNotes.fileBeside(wanted.input());
            notes = write(recording, file, before.notes(), next.notes());
            if (setup && notes) {
                drafts.forget(wanted.input());
                trouble.keptBeside(recording);
            }
        } catch (IOException e) {
            keepAsDraft(wanted.input(), file, next, e);
        }
        synchronized (this) {
            known.put(
                    recording,
                    new Beside(setup ? next.setup() : before.setup(), notes ? next.notes() : before.notes()));
        }
    }

    private void keepAsDraft(InputFile input, Path file, Beside next, IOException why) {
        try {
            trouble.keptAsDraft(input.path(), file, drafts.keep(input, next), why);
        } catch (IOException e) {
            why.addSuppressed(e);
            trouble.failed(file, why);
        }
    }

    /** Whether {@code next} stands in {@code file} now. */
    private boolean write(Path recording, Path file, String before, String next) throws IOException {
        if (next.equals(before)) {
            return true;
        }
        String there = Beside.textOf(file);
        if (there.equals(next)) {
            return true;
        }
        if (!there.equals(before)) {
            trouble.changedByAnother(recording, file);
            return false;
        }
        if (next.isEmpty()) {
            Files.deleteIfExists(file);
        } else {
            SafeFile.write(file, next);
        }
        return true;
    }

    /** Writes what waits and ends. */
    @Override
    public void close() {
        if (thread.isShutdown()) {
            return;
        }
        thread.execute(this::writeAll);
        thread.shutdown();
        try {
            if (!thread.awaitTermination(LONGEST_CLOSE_S, TimeUnit.SECONDS)) {
                thread.shutdownNow();
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }
}
