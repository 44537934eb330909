package org.holdtrace.firmware;

/** The latest samples of a channel: what was there before a session began. One thread. */
final class SampleHistory {
    private final long[] timeNs;
    private final int[] counts;
    private int next;
    private int size;

    SampleHistory(int capacity) {
        timeNs = new long[capacity];
        counts = new int[capacity];
    }

    void add(long atNs, int count) {
        timeNs[next] = atNs;
        counts[next] = count;
        next = (next + 1) % timeNs.length;
        size = Math.min(size + 1, timeNs.length);
    }

    int size() {
        return size;
    }

    /** Index of the {@code i}-th oldest. */
    private int index(int i) {
        return (next - size + i + timeNs.length) % timeNs.length;
    }

    /** Time of the {@code i}-th oldest, ns. */
    long timeNs(int i) {
        return timeNs[index(i)];
    }

    int count(int i) {
        return counts[index(i)];
    }

    void clear() {
        size = 0;
    }
}
