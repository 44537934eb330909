package org.holdtrace.record;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.Iterator;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.locks.Condition;
import java.util.concurrent.locks.ReentrantLock;

/**
 * What waits to be written, in order. Where the disk does not take it for long and it grows beyond its limit, the oldest
 * samples are given up and counted; beginnings, ends and events never are. For any number of threads; nobody waits
 * longer than it takes to add or remove one thing.
 */
final class WorkQueue {
    /** Samples that had to be given up. */
    record Lost(long samples, long fromNs, long toNs) {}

    private final ReentrantLock lock = new ReentrantLock();
    private final Condition added = lock.newCondition();
    private final Deque<Work> works = new ArrayDeque<>();
    private final long mostSamples;
    private long samples;
    private long lost;
    private long lostFromNs;
    private long lostToNs;

    WorkQueue(long mostSamples) {
        this.mostSamples = mostSamples;
    }

    void add(Work work) {
        lock.lock();
        try {
            works.addLast(work);
            if (work instanceof Work.Samples block) {
                samples += block.size();
                giveUpOldest();
            }
            added.signal();
        } finally {
            lock.unlock();
        }
    }

    private void giveUpOldest() {
        if (samples <= mostSamples) {
            return;
        }
        Iterator<Work> oldest = works.iterator();
        oldest.next(); // the first may be on its way to the disk
        while (samples > mostSamples && oldest.hasNext()) {
            if (oldest.next() instanceof Work.Samples block) {
                oldest.remove();
                samples -= block.size();
                long from = block.timeNs()[0];
                long to = block.timeNs()[block.size() - 1];
                lostFromNs = lost == 0 ? from : Math.min(lostFromNs, from);
                lostToNs = lost == 0 ? to : Math.max(lostToNs, to);
                lost += block.size();
            }
        }
    }

    /** The first, which stays; null where there is none. */
    Work first() {
        lock.lock();
        try {
            return works.peekFirst();
        } finally {
            lock.unlock();
        }
    }

    /** The first is done. */
    void removeFirst() {
        lock.lock();
        try {
            if (works.removeFirst() instanceof Work.Samples block) {
                samples -= block.size();
            }
        } finally {
            lock.unlock();
        }
    }

    /** Puts {@code again} before all others, in its order. */
    void putBack(List<Work> again) {
        lock.lock();
        try {
            for (int i = again.size() - 1; i >= 0; i--) {
                works.addFirst(again.get(i));
                if (again.get(i) instanceof Work.Samples block) {
                    samples += block.size();
                }
            }
        } finally {
            lock.unlock();
        }
    }

    /** What was given up since the last call; null where nothing was. */
    Lost takeLost() {
        lock.lock();
        try {
            if (lost == 0) {
                return null;
            }
            Lost all = new Lost(lost, lostFromNs, lostToNs);
            lost = 0;
            return all;
        } finally {
            lock.unlock();
        }
    }

    long waitingSamples() {
        lock.lock();
        try {
            return samples;
        } finally {
            lock.unlock();
        }
    }

    boolean isEmpty() {
        return first() == null;
    }

    /** Waits until there is something or {@code ns} have passed. */
    void await(long ns) throws InterruptedException {
        lock.lock();
        try {
            long left = ns;
            while (works.isEmpty() && left > 0) {
                left = added.awaitNanos(left);
            }
        } finally {
            lock.unlock();
        }
    }

    static long millis(long ms) {
        return TimeUnit.MILLISECONDS.toNanos(ms);
    }
}
