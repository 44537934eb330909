package org.holdtrace.record;

import java.io.IOException;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.CompletableFuture;
import org.holdtrace.session.SessionEvent;
import org.holdtrace.session.SessionHeader;

/**
 * Records sessions on a thread of its own. What is handed in is written within a quarter of a second and forced to the
 * disk within another half: pulling the plug costs less than one second. Handing in never waits for the disk. What the
 * disk does not take stays in memory as long as there is room, and is written when it does. Old sessions are never
 * touched.
 *
 * <p>One thread hands in; the questions may be asked from any.
 */
public final class Recorder implements AutoCloseable {
    /** A block of samples is closed at this many, or when it spans this time. */
    static final int BLOCK_SAMPLES = 256;

    static final long BLOCK_NS = WorkQueue.millis(240);

    /** Some ten minutes at 860 samples a second, 6 MB. */
    private static final long MOST_WAITING_SAMPLES = 520_000;

    private static final long SLOW_NS = WorkQueue.millis(2000);
    private static final long LOOK_AT_DISK_NS = WorkQueue.millis(2000);
    private static final long WAIT_NS = WorkQueue.millis(50);

    /**
     * When the disk is too full.
     *
     * @param lowBytes below this there is a warning
     * @param stopBytes below this recording stops and none begins
     */
    public record Room(long lowBytes, long stopBytes) {
        /** 256 MB are some twenty hours at 860 samples a second. */
        public static final Room USUAL = new Room(256L << 20, 16L << 20);
    }

    private final Storage storage;
    private final SessionNames names;
    private final Room room;
    private final WorkQueue queue;
    private final SessionWriting writing;
    private final Map<Integer, Block> open = new HashMap<>();
    private final Thread thread;
    private volatile boolean closing;
    private volatile long usableBytes;
    private volatile List<Problem> roomProblems = List.of();
    private volatile Problem programProblem;
    private volatile long busySinceNs;
    private volatile boolean busy;
    private long lookedNs;
    private boolean looked;

    /** Samples of one channel that are not a block yet. */
    private static final class Block {
        private long[] timeNs = new long[BLOCK_SAMPLES];
        private int[] counts = new int[BLOCK_SAMPLES];
        private int size;
    }

    /** Records into {@code storage} from now on. */
    public Recorder(Storage storage, SessionNames names, Room room) {
        this(storage, names, room, MOST_WAITING_SAMPLES);
        thread.start();
    }

    /** One whose thread does not run: a test calls {@link #step}. */
    Recorder(Storage storage, SessionNames names, Room room, long mostWaitingSamples) {
        this.storage = storage;
        this.names = names;
        this.room = room;
        queue = new WorkQueue(mostWaitingSamples);
        writing = new SessionWriting(storage, queue, SessionWriting.Timing.USUAL);
        lookAtDisk(System.nanoTime());
        thread = new Thread(this::run, "recorder");
        thread.setDaemon(true);
    }

    /**
     * Begins a session; the one before must have been ended.
     *
     * @param now the wall-clock date for its name; empty where the clock cannot be believed
     * @return hears of the file's name once its header is on the disk; never where the disk never takes it
     */
    public CompletableFuture<String> begin(SessionHeader header, Optional<Instant> now) {
        CompletableFuture<String> created = new CompletableFuture<>();
        open.clear();
        queue.add(new Work.Begin(header, names.next(now), created));
        return created;
    }

    /**
     * Appends samples of a channel to the session; they are copied.
     *
     * @param timeNs ns since the session began, never decreasing
     * @param from index of the first
     * @param to index behind the last
     */
    public void samples(int channel, long[] timeNs, int[] counts, int from, int to) {
        Block block = open.computeIfAbsent(channel, id -> new Block());
        for (int i = from; i < to; i++) {
            block.timeNs[block.size] = timeNs[i];
            block.counts[block.size++] = counts[i];
            if (block.size == BLOCK_SAMPLES || timeNs[i] - block.timeNs[0] >= BLOCK_NS) {
                close(channel, block);
            }
        }
    }

    private void close(int channel, Block block) {
        if (block.size > 0) {
            queue.add(new Work.Samples(channel, block.timeNs, block.counts, block.size));
            block.timeNs = new long[BLOCK_SAMPLES];
            block.counts = new int[BLOCK_SAMPLES];
            block.size = 0;
        }
    }

    /** Hands over what is older than a block may be: of a slow channel, or of a fast one that fell silent. */
    public void flushOlderThan(long timeNs) {
        open.forEach((channel, block) -> {
            if (block.size > 0 && block.timeNs[0] <= timeNs) {
                close(channel, block);
            }
        });
    }

    /** Appends an event to the session. */
    public void event(SessionEvent event) {
        queue.add(new Work.Event(event));
    }

    /**
     * Ends the session on purpose.
     *
     * @return hears when all of it is on the disk
     */
    public CompletableFuture<Void> end(String reason) {
        open.forEach(this::close);
        CompletableFuture<Void> done = new CompletableFuture<>();
        queue.add(new Work.End(reason, done));
        return done;
    }

    /** The file that is being written; empty where none is. */
    public Optional<String> fileName() {
        return Optional.ofNullable(writing.name());
    }

    /** All that is wrong with writing now; no two have one name. */
    public List<Problem> problems() {
        Map<String, Problem> all = new LinkedHashMap<>();
        roomProblems.forEach(problem -> all.put(problem.name(), problem));
        Problem program = programProblem;
        if (program != null) {
            all.put(program.name(), program);
        }
        Problem now = writing.problem();
        if (now == null && busy && System.nanoTime() - busySinceNs > SLOW_NS) {
            now = new Problem(
                    "disk.slow",
                    String.format(
                            Locale.ROOT,
                            "the disk has not answered for %.0f s; samples wait in memory",
                            (System.nanoTime() - busySinceNs) / 1e9),
                    true);
        }
        if (now != null) {
            all.put(now.name(), now);
        }
        return List.copyOf(all.values());
    }

    /** Whether there is too little room to go on recording. */
    public boolean isFull() {
        return usableBytes < room.stopBytes;
    }

    /** Room left on the disk, bytes, as it was seconds ago. */
    public long usableBytes() {
        return usableBytes;
    }

    /** Samples that wait for the disk. */
    public long waitingSamples() {
        return queue.waitingSamples();
    }

    private void run() {
        while (!closing || !queue.isEmpty() || !writing.isForced()) {
            try {
                queue.await(WAIT_NS);
                boolean through = step(System.nanoTime());
                if (!through || closing) {
                    Thread.sleep(closing ? 5 : 50);
                }
            } catch (InterruptedException e) {
                return;
            }
        }
    }

    /** Writes what there is and looks at the disk; returns whether it came to the end of it. */
    boolean step(long nowNs) {
        busySinceNs = System.nanoTime();
        busy = true;
        try {
            boolean through = writing.step(nowNs);
            lookAtDisk(nowNs);
            return through;
        } catch (RuntimeException e) {
            // A fault of ours must cost no more than what it was at: the samples behind it are still wanted.
            programProblem = new Problem("record.program", "writing failed by a fault of the program: " + e, true);
            if (!queue.isEmpty()) {
                queue.removeFirst();
            }
            return false;
        } finally {
            busy = false;
        }
    }

    private void lookAtDisk(long nowNs) {
        if (looked && nowNs - lookedNs < LOOK_AT_DISK_NS) {
            return;
        }
        looked = true;
        lookedNs = nowNs;
        try {
            long usable = storage.usableBytes();
            List<Problem> found = new ArrayList<>();
            if (usable < room.lowBytes) {
                found.add(new Problem("disk.low", "little room on the disk: " + megabytes(usable) + " left", false));
            }
            // A full disk is low as well: who reads that low is over must be able to believe it.
            if (usable < room.stopBytes) {
                found.add(new Problem(
                        "disk.full",
                        "the disk is full: " + megabytes(usable) + " left; copy sessions off and delete them there",
                        true));
            }
            roomProblems = List.copyOf(found);
            usableBytes = usable; // last: who finds the disk full finds the problem as well
        } catch (IOException e) {
            roomProblems = List.of(Problem.of(e, "the room on the disk cannot be told"));
        }
    }

    private static String megabytes(long bytes) {
        return String.format(Locale.ROOT, "%.0f MB", bytes / 1e6);
    }

    /** Writes what is left for at most some seconds, and stops. A session that runs is left without an end. */
    @Override
    public void close() {
        closing = true;
        try {
            thread.join(WorkQueue.millis(5000) / 1_000_000);
            thread.interrupt();
            thread.join(1000);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }
}
