package org.holdtrace.adc;

/**
 * The converter's "conversion ready" output on an input of the computer. A hint and no more: edges may be lost, so a
 * driver reads when its time has run out, edge or not.
 */
public interface ReadyPin extends AutoCloseable {
    /**
     * Waits for an edge that no earlier call has told of.
     *
     * @param limitNs no longer than this, ns
     * @return whether there was one
     */
    boolean awaitEdge(long limitNs);

    /** Sets the input up anew: what listens to edges may have died. */
    void restart();

    @Override
    void close();
}
