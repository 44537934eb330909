package org.holdtrace.adc;

/**
 * Decides from good and bad readings whether a fault is there. One spike is none; a fault that lasts is named after
 * {@link #LASTS_NS}, one that comes and goes once it makes a tenth of the readings of a second; it is over after
 * {@link #OVER_NS} without a bad reading.
 */
final class FaultLatch {
    /** 60 ms: longer than a spike of a few samples or one lost transfer, short against the second allowed. */
    static final long LASTS_NS = 60_000_000;

    /** 300 ms: longer than the pauses of a loose contact that chatters, so that the fault does not flicker. */
    static final long OVER_NS = 300_000_000;

    private static final long HALF_WINDOW_NS = 500_000_000;
    private static final int FEWEST = 3;
    private static final double SHARE = 0.1;

    private final boolean atOnce;
    private boolean active;
    private long runSinceNs;
    private int run;
    private long lastBadNs;
    private long halfSinceNs;
    private boolean begun;
    private int bad;
    private int all;
    private int badBefore;
    private int allBefore;

    /** Where {@code atOnce}, one bad reading is enough: for inputs that are read now and then only. */
    FaultLatch(boolean atOnce) {
        this.atOnce = atOnce;
    }

    boolean isActive() {
        return active;
    }

    /** A bad reading; true where the fault is new. */
    boolean bad(long timeNs) {
        count(timeNs, true);
        if (run == 0) {
            runSinceNs = timeNs;
        }
        run++;
        lastBadNs = timeNs;
        if (active) {
            return false;
        }
        boolean lasts = run >= FEWEST && timeNs - runSinceNs >= LASTS_NS;
        int badNow = bad + badBefore;
        boolean often = badNow >= FEWEST && badNow >= SHARE * (all + allBefore) && run < badNow;
        active = atOnce || lasts || often;
        return active;
    }

    /** A good reading; true where the fault is over by it. */
    boolean good(long timeNs) {
        count(timeNs, false);
        run = 0;
        if (active && timeNs - lastBadNs >= OVER_NS) {
            active = false;
            bad = 0;
            badBefore = 0;
            return true;
        }
        return false;
    }

    private void count(long timeNs, boolean isBad) {
        if (!begun || timeNs - halfSinceNs >= HALF_WINDOW_NS) {
            boolean next = begun && timeNs - halfSinceNs < 2 * HALF_WINDOW_NS;
            badBefore = next ? bad : 0;
            allBefore = next ? all : 0;
            bad = 0;
            all = 0;
            halfSinceNs = timeNs;
            begun = true;
        }
        all++;
        bad += isBad ? 1 : 0;
    }
}
