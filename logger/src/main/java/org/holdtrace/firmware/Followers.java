package org.holdtrace.firmware;

import java.util.List;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.function.Consumer;
import org.holdtrace.serve.LiveListener;
import org.holdtrace.serve.LoggerState;
import org.holdtrace.session.SessionEvent;

/** Those who follow live. One that throws is let go: it must not stop the others, nor the recording. */
final class Followers {
    private final List<LiveListener> listeners = new CopyOnWriteArrayList<>();

    void add(LiveListener listener) {
        if (!listeners.contains(listener)) {
            listeners.add(listener);
        }
    }

    void remove(LiveListener listener) {
        listeners.remove(listener);
    }

    void samples(int channel, long[] timeNs, int[] counts, int size) {
        each(listener -> listener.samples(channel, timeNs, counts, 0, size));
    }

    void event(SessionEvent event) {
        each(listener -> listener.event(event));
    }

    void state(LoggerState state) {
        each(listener -> listener.state(state));
    }

    private void each(Consumer<LiveListener> tell) {
        listeners.removeIf(listener -> {
            try {
                tell.accept(listener);
                return false;
            } catch (RuntimeException e) {
                return true;
            }
        });
    }
}
