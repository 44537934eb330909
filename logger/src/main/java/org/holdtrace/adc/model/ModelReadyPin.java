package org.holdtrace.adc.model;

import org.holdtrace.adc.ReadyPin;
import org.holdtrace.adc.SteadyClock;

/** The ready pin of a simulated chip. Its listener may die, as real ones do, until it is restarted. */
public final class ModelReadyPin implements ReadyPin {
    private final Ads1115Model chip;
    private final SteadyClock clock;
    private long heard;
    private boolean dead;
    private int restarts;

    public ModelReadyPin(Ads1115Model chip, SteadyClock clock) {
        this.chip = chip;
        this.clock = clock;
    }

    /** No edge is heard any more. */
    public void die() {
        dead = true;
    }

    /** How often it was restarted. */
    public int restarts() {
        return restarts;
    }

    @Override
    public boolean awaitEdge(long limitNs) {
        if (dead) {
            clock.waitNs(limitNs);
            return false;
        }
        if (chip.edges() == heard) {
            long next = chip.nextEdgeNs();
            long wait = next == Long.MAX_VALUE ? limitNs : Math.min(limitNs, next - clock.nanoTime());
            clock.waitNs(Math.max(0, wait));
        }
        long now = chip.edges();
        boolean edge = now != heard;
        heard = now;
        return edge;
    }

    @Override
    public void restart() {
        dead = false;
        restarts++;
        heard = chip.edges();
    }

    @Override
    public void close() {
        // Nothing is open.
    }
}
