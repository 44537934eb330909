package org.holdtrace.firmware;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.function.Consumer;
import org.holdtrace.session.SessionEvent;

/** What is wrong now. Tells each fault once when it comes and once when it goes. One thread. */
final class FaultBoard {
    /**
     * A fault.
     *
     * @param name stable, such as {@code input.wire}
     * @param text what a person should know
     * @param recording whether it is writing that is at fault, not measuring
     * @param grave whether a lamp must show it
     */
    record Fault(String name, String text, boolean recording, boolean grave) {}

    private record Since(Fault fault, long ns) {}

    private final Map<String, Since> faults = new LinkedHashMap<>();
    private final Consumer<SessionEvent> events;

    FaultBoard(Consumer<SessionEvent> events) {
        this.events = events;
    }

    /** {@code fault} is there; nothing happens where it was before. */
    void raise(Fault fault, long nowNs) {
        Since known = faults.get(fault.name);
        if (known == null) {
            events.accept(new SessionEvent.Fault(nowNs, fault.name, fault.text));
        }
        faults.put(fault.name, new Since(fault, known == null ? nowNs : known.ns));
    }

    /** The fault of that name is gone; nothing happens where there was none. */
    void clear(String name, long nowNs) {
        Since known = faults.remove(name);
        if (known != null) {
            events.accept(new SessionEvent.Note(
                    nowNs,
                    String.format(Locale.ROOT, "%s is over, after %.1f s", name, (nowNs - known.ns) / 1e9)));
        }
    }

    /** Clears every fault whose name begins so and is not {@code but}. */
    void clearOthers(String prefix, String but, long nowNs) {
        for (String name : new ArrayList<>(faults.keySet())) {
            if (name.startsWith(prefix) && !name.equals(but)) {
                clear(name, nowNs);
            }
        }
    }

    /** All there are, in the order they came. */
    List<Fault> all() {
        List<Fault> all = new ArrayList<>();
        faults.values().forEach(since -> all.add(since.fault));
        return all;
    }

    /** As events at {@code atNs}: for the head of a session that begins with them. */
    List<SessionEvent> asEvents(long atNs) {
        List<SessionEvent> all = new ArrayList<>();
        faults.values().forEach(since -> all.add(new SessionEvent.Fault(atNs, since.fault.name, since.fault.text)));
        return all;
    }

    boolean anyGrave(boolean recording) {
        return faults.values().stream()
                .anyMatch(since -> since.fault.grave && since.fault.recording == recording);
    }
}
