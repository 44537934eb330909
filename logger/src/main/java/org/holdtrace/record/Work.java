package org.holdtrace.record;

import java.util.concurrent.CompletableFuture;
import org.holdtrace.session.SessionEvent;
import org.holdtrace.session.SessionHeader;

/** What waits to be written. */
sealed interface Work {
    /** A session begins. {@code created} hears of the name of its file once its header is on the disk. */
    record Begin(SessionHeader header, String name, CompletableFuture<String> created) implements Work {}

    /** Samples of one channel; the arrays are never changed again. */
    record Samples(int channel, long[] timeNs, int[] counts, int size) implements Work {}

    /** Something happened. */
    record Event(SessionEvent event) implements Work {}

    /** The session ends. {@code done} hears when all of it is on the disk. */
    record End(String reason, CompletableFuture<Void> done) implements Work {}
}
