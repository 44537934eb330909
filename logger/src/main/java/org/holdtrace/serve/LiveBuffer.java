package org.holdtrace.serve;

import java.util.ArrayDeque;
import java.util.Map;
import java.util.TreeMap;
import org.holdtrace.session.SessionEvent;

/**
 * What was heard live and is still to be sent. Bounded: where the link is too slow the oldest is dropped and counted,
 * and whoever calls is never kept waiting for longer than an array takes to be copied.
 */
final class LiveBuffer implements LiveListener {
    /** Nearly 5 s at 860 Hz. */
    private static final int MOST_SAMPLES = 4096;

    private static final int MOST_EVENTS = 256;
    private static final int MOST_CHANNELS = 16;

    private final Map<Integer, Ring> channels = new TreeMap<>();
    private final ArrayDeque<SessionEvent> events = new ArrayDeque<>();
    private final boolean withSamples;
    private long droppedSamples;
    private long droppedEvents;
    private boolean stateChanged;

    LiveBuffer(boolean withSamples) {
        this.withSamples = withSamples;
    }

    /** The newest samples of a channel. */
    private static final class Ring {
        private final long[] timeNs = new long[MOST_SAMPLES];
        private final int[] counts = new int[MOST_SAMPLES];
        private int first;
        private int size;

        /** Returns how many old ones had to make room. */
        private int put(long t, int count) {
            int at = (first + size) % MOST_SAMPLES;
            timeNs[at] = t;
            counts[at] = count;
            if (size < MOST_SAMPLES) {
                size++;
                return 0;
            }
            first = (first + 1) % MOST_SAMPLES;
            return 1;
        }
    }

    /** Samples taken out of the buffer, oldest first. */
    static final class Taken {
        final long[] timeNs = new long[512];
        final int[] counts = new int[512];
        int channelId;
        int size;
    }

    /**
     * What was left out since the last time.
     *
     * @param samples how many samples
     * @param events how many events
     */
    record Left(long samples, long events) {
        boolean any() {
            return samples > 0 || events > 0;
        }
    }

    @Override
    public synchronized void samples(int channelId, long[] timeNs, int[] counts, int from, int to) {
        if (!withSamples) {
            return;
        }
        Ring ring = channels.get(channelId);
        if (ring == null) {
            if (channels.size() == MOST_CHANNELS) {
                droppedSamples += to - from;
                return;
            }
            ring = new Ring();
            channels.put(channelId, ring);
        }
        for (int i = from; i < to; i++) {
            droppedSamples += ring.put(timeNs[i], counts[i]);
        }
    }

    @Override
    public synchronized void event(SessionEvent event) {
        if (events.size() == MOST_EVENTS) {
            events.removeFirst();
            droppedEvents++;
        }
        events.addLast(event);
    }

    @Override
    public synchronized void state(LoggerState state) {
        stateChanged = true;
    }

    /** Takes some of the oldest samples of one channel; false where there are none. Their times never decrease. */
    synchronized boolean take(Taken into) {
        for (Map.Entry<Integer, Ring> channel : channels.entrySet()) {
            Ring ring = channel.getValue();
            into.channelId = channel.getKey();
            into.size = 0;
            while (ring.size > 0 && into.size < into.timeNs.length) {
                long t = ring.timeNs[ring.first];
                if (into.size > 0 && t < into.timeNs[into.size - 1]) {
                    break; // a clock that began anew: a block of its own
                }
                into.timeNs[into.size] = t;
                into.counts[into.size++] = ring.counts[ring.first];
                ring.first = (ring.first + 1) % MOST_SAMPLES;
                ring.size--;
            }
            if (into.size > 0) {
                return true;
            }
        }
        return false;
    }

    /** Takes the oldest event; null where there is none. */
    synchronized SessionEvent takeEvent() {
        return events.pollFirst();
    }

    /** Takes the account of what was dropped. */
    synchronized Left takeLeft() {
        Left left = new Left(droppedSamples, droppedEvents);
        droppedSamples = 0;
        droppedEvents = 0;
        return left;
    }

    /** Whether the state has changed since the last time. */
    synchronized boolean takeStateChanged() {
        boolean changed = stateChanged;
        stateChanged = false;
        return changed;
    }
}
