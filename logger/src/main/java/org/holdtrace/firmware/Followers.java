package org.holdtrace.firmware;

import java.util.List;
import java.util.concurrent.CopyOnWriteArrayList;
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
        for (LiveListener listener : listeners) {
            try {
                listener.samples(channel, timeNs, counts, 0, size);
            } catch (RuntimeException e) {
                listeners.remove(listener);
            }
        }
    }

    void event(SessionEvent event) {
        for (LiveListener listener : listeners) {
            try {
                listener.event(event);
            } catch (RuntimeException e) {
                listeners.remove(listener);
            }
        }
    }

    void state(LoggerState state) {
        for (LiveListener listener : listeners) {
            try {
                listener.state(state);
            } catch (RuntimeException e) {
                listeners.remove(listener);
            }
        }
    }
}
