package org.holdtrace.session;

import java.util.ArrayList;
import java.util.List;

/**
 * A column of numbers of unknown length. Grows by whole chunks, so that nothing is copied while it grows; copied once
 * into an array of the exact length, each chunk let go as soon as it is copied, so that at no time two whole copies of
 * ten million samples are held.
 */
final class DoubleColumn {
    /** 256 kB a chunk: small beside any heap, and below the size garbage collectors treat as huge. */
    private static final int CHUNK = 1 << 15;

    private final List<double[]> full = new ArrayList<>();
    private double[] chunk = new double[CHUNK];
    private int used;

    void add(double value) {
        if (used == CHUNK) {
            full.add(chunk);
            chunk = new double[CHUNK];
            used = 0;
        }
        chunk[used++] = value;
    }

    /** The column as an array; the column itself is empty afterwards. */
    double[] release() {
        double[] all = new double[full.size() * CHUNK + used];
        int at = 0;
        for (int i = 0; i < full.size(); i++) {
            System.arraycopy(full.get(i), 0, all, at, CHUNK);
            full.set(i, null);
            at += CHUNK;
        }
        System.arraycopy(chunk, 0, all, at, used);
        full.clear();
        used = 0;
        return all;
    }
}
