package org.holdtrace.record;

import java.io.IOException;
import java.nio.channels.WritableByteChannel;
import java.nio.file.FileAlreadyExistsException;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.holdtrace.session.HoldFileWriter;
import org.holdtrace.session.SessionEvent;
import org.holdtrace.session.SessionHeader;

/**
 * Takes work off a queue and writes it to files, through every kind of trouble a disk can make. One thread.
 *
 * <ul>
 *   <li>A write that fails is tried again, later, in the same file. Its frame number is not used again, so a reader
 *       sees that a frame is torn; a note says that what was in it came again.
 *   <li>A file that does not take a write {@value #TRIES} times is given up for a new one that continues it, if one can
 *       be made.
 *   <li>After a force that failed nobody knows what of the file is on the disk (Linux drops what it could not write):
 *       what was written since the last good one is written again, into a new file.
 * </ul>
 */
final class SessionWriting {
    static final int TRIES = 3;

    /**
     * How often what happens.
     *
     * @param forceNs written samples are forced to the disk when they are this old
     * @param retryNs pause after something failed
     */
    record Timing(long forceNs, long retryNs) {
        static final Timing USUAL = new Timing(WorkQueue.millis(400), WorkQueue.millis(500));
    }

    private final Storage storage;
    private final WorkQueue queue;
    private final Timing timing;
    private final List<Work> unforced = new ArrayList<>();

    private SessionHeader header;
    private WritableByteChannel channel;
    private HoldFileWriter writer;
    private volatile String name;
    private volatile Problem problem;
    private long firstUnforcedNs;
    private long retryAtNs = Long.MIN_VALUE;
    private int failures;
    private boolean fileLost;
    private long rewritten;

    SessionWriting(Storage storage, WorkQueue queue, Timing timing) {
        this.storage = storage;
        this.queue = queue;
        this.timing = timing;
    }

    /** Writes what there is; returns whether it came to the end of it. */
    boolean step(long nowNs) {
        if (nowNs < retryAtNs) {
            return false;
        }
        try {
            if (fileLost || (failures >= TRIES && failures % 2 == 1 && writer != null)) {
                continueInNewFile();
            }
            for (Work work = queue.first(); work != null; work = queue.first()) {
                write(work, nowNs);
                queue.removeFirst();
            }
            if (!unforced.isEmpty() && nowNs - firstUnforcedNs >= timing.forceNs) {
                force();
            }
        } catch (IOException e) {
            failed(e, nowNs);
            return false;
        }
        return true;
    }

    private void failed(IOException e, long nowNs) {
        failures++;
        retryAtNs = nowNs + timing.retryNs;
        problem = Problem.of(e, name == null ? "a session cannot be begun" : name + " cannot be written");
    }

    private void write(Work work, long nowNs) throws IOException {
        if (work instanceof Work.Begin begin) {
            begin(begin);
        } else if (writer == null) {
            return; // a session that could not be begun was given up
        } else if (work instanceof Work.End end) {
            tellTroubles(nowNs);
            force();
            writer.end(end.reason());
            force();
            closeQuietly();
            end.done().complete(null);
        } else {
            tellTroubles(nowNs);
            append(work);
            unforced(work, nowNs);
        }
        if (failures > 0) {
            failures = 0;
            retryAtNs = Long.MIN_VALUE;
        }
        problem = null;
    }

    private void append(Work work) throws IOException {
        try {
            if (work instanceof Work.Samples block) {
                writer.samples(block.channel(), block.timeNs(), block.counts(), 0, block.size());
            } else if (work instanceof Work.Event event) {
                writer.event(event.event());
            }
        } catch (IOException e) {
            rewritten++;
            throw e;
        }
    }

    private void unforced(Work work, long nowNs) {
        if (unforced.isEmpty()) {
            firstUnforcedNs = nowNs;
        }
        unforced.add(work);
    }

    /** What a reader would otherwise wonder about. */
    private void tellTroubles(long nowNs) throws IOException {
        long timeNs = timeOf(queue.first());
        if (rewritten > 0) {
            tell(
                    new SessionEvent.Fault(
                            timeNs,
                            "record.rewritten",
                            "writing failed " + rewritten + " times"
                                    + "; what stood in the torn frames stands again behind them"),
                    nowNs);
            rewritten = 0;
        }
        WorkQueue.Lost lost = queue.takeLost();
        if (lost != null) {
            tell(
                    new SessionEvent.Fault(
                            timeNs,
                            "record.lost",
                            String.format(
                                    Locale.ROOT,
                                    "%d samples between %.3f s and %.3f s are lost: the disk took nothing for so long"
                                            + " that memory was full",
                                    lost.samples(),
                                    lost.fromNs() / 1e9,
                                    lost.toNs() / 1e9)),
                    nowNs);
        }
    }

    private void tell(SessionEvent event, long nowNs) throws IOException {
        Work.Event work = new Work.Event(event);
        writer.event(event);
        unforced(work, nowNs);
    }

    private static long timeOf(Work work) {
        if (work instanceof Work.Samples block) {
            return block.timeNs()[0];
        }
        return work instanceof Work.Event event ? event.event().timeNs() : 0;
    }

    private void begin(Work.Begin begin) throws IOException {
        header = begin.header();
        String created = create(begin.name());
        begin.created().complete(created);
    }

    /** Opens a new file for {@link #header} and makes it the one that is written. */
    private String create(String wanted) throws IOException {
        String free = wanted;
        WritableByteChannel made = null;
        while (made == null) {
            try {
                made = storage.create(free);
            } catch (FileAlreadyExistsException e) {
                free = SessionNames.continuing(free);
            }
        }
        HoldFileWriter begun;
        boolean ready = false;
        try {
            begun = HoldFileWriter.to(made, header);
            storage.force(made, true);
            ready = true;
        } finally {
            if (!ready) {
                made.close();
                storage.discard(free);
            }
        }
        channel = made;
        writer = begun;
        name = free;
        fileLost = false;
        return free;
    }

    private void continueInNewFile() throws IOException {
        String before = name;
        WritableByteChannel given = channel;
        boolean safe = false;
        if (!fileLost) {
            try {
                storage.force(given, false);
                safe = true;
            } catch (IOException e) {
                fileLost = true;
            }
        }
        create(SessionNames.continuing(before));
        try {
            given.close();
        } catch (IOException e) {
            // It was given up: nothing of it is needed any more.
        }
        List<Work> again = new ArrayList<>();
        again.add(new Work.Event(new SessionEvent.Note(
                timeOf(queue.first()), "continues " + before + ", which could not be written any more; same time 0")));
        if (!safe) {
            again.addAll(unforced);
        }
        unforced.clear();
        rewritten = 0;
        queue.putBack(again);
    }

    private void force() throws IOException {
        try {
            storage.force(channel, false);
        } catch (IOException e) {
            fileLost = true;
            throw e;
        }
        unforced.clear();
    }

    private void closeQuietly() {
        try {
            channel.close();
        } catch (IOException e) {
            // All of it was forced to the disk before.
        }
        channel = null;
        writer = null;
        name = null;
        unforced.clear();
    }

    /** The file that is written; null where none is. */
    String name() {
        return name;
    }

    /** What is wrong; null where nothing is. */
    Problem problem() {
        return problem;
    }

    /** Whether all that was written is on the disk. */
    boolean isForced() {
        return unforced.isEmpty();
    }
}
