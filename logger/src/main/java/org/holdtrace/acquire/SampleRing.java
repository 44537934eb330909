package org.holdtrace.acquire;

import java.lang.invoke.MethodHandles;
import java.lang.invoke.VarHandle;

/**
 * Samples on their way from the thread that reads the converter to the one that makes use of them. One thread puts, one
 * takes; neither ever waits, neither allocates.
 */
public final class SampleRing {
    private static final VarHandle PUT;
    private static final VarHandle TAKEN;

    static {
        try {
            MethodHandles.Lookup lookup = MethodHandles.lookup();
            PUT = lookup.findVarHandle(SampleRing.class, "put", long.class);
            TAKEN = lookup.findVarHandle(SampleRing.class, "taken", long.class);
        } catch (ReflectiveOperationException e) {
            throw new ExceptionInInitializerError(e);
        }
    }

    /** Takes samples out of the ring. */
    @FunctionalInterface
    public interface Sink {
        /**
         * A sample.
         *
         * @param channel which input, as it was put
         * @param timeNs when, ns on the sampler's clock
         * @param count raw count
         */
        void sample(int channel, long timeNs, int count);
    }

    private final long[] timesNs;
    private final int[] counts;
    private final byte[] channels;
    private final int mask;

    @SuppressWarnings("unused") // by its VarHandle
    private volatile long put;

    @SuppressWarnings("unused") // by its VarHandle
    private volatile long taken;

    private long takenSeen;

    /** A ring for at least {@code capacity} samples, 2 to 2^24. */
    public SampleRing(int capacity) {
        if (capacity < 2 || capacity > 1 << 24) {
            throw new IllegalArgumentException("a ring holds 2 to 2^24 samples, not " + capacity);
        }
        int size = Integer.highestOneBit(capacity - 1) << 1;
        timesNs = new long[size];
        counts = new int[size];
        channels = new byte[size];
        mask = size - 1;
    }

    /** How many samples it can hold. */
    public int capacity() {
        return mask + 1;
    }

    /**
     * Puts a sample in.
     *
     * @param channel 0 to 127
     * @return false where the ring is full and the sample is lost
     */
    public boolean put(int channel, long timeNs, int count) {
        long at = (long) PUT.get(this);
        if (at - takenSeen > mask) {
            takenSeen = (long) TAKEN.getAcquire(this);
            if (at - takenSeen > mask) {
                return false;
            }
        }
        int i = (int) at & mask;
        timesNs[i] = timeNs;
        counts[i] = count;
        channels[i] = (byte) channel;
        PUT.setRelease(this, at + 1);
        return true;
    }

    /**
     * Takes at most {@code most} samples out, oldest first.
     *
     * @return how many there were
     */
    public int drain(Sink sink, int most) {
        long from = (long) TAKEN.get(this);
        long to = Math.min((long) PUT.getAcquire(this), from + most);
        for (long at = from; at < to; at++) {
            int i = (int) at & mask;
            sink.sample(channels[i], timesNs[i], counts[i]);
        }
        TAKEN.setRelease(this, to);
        return (int) (to - from);
    }
}
