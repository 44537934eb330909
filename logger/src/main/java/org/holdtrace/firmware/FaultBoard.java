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

    /** {@code fault} of {@code source} is there; nothing happens where it was before. */
    void raise(String source, Fault fault, long nowNs) {
        Since known = faults.get(key(source, fault.name));
        if (known == null) {
            events.accept(new SessionEvent.Fault(nowNs, fault.name, fault.text));
        }
        faults.put(key(source, fault.name), new Since(fault, known == null ? nowNs : known.ns));
    }

    private static String key(String source, String name) {
        return source + '/' + name;
    }

    /** The fault of that name is gone; nothing happens where there was none. */
    void clear(String source, String name, long nowNs) {
        clear(key(source, name), name, nowNs, source);
    }

    private void clear(String key, String name, long nowNs, String source) {
        Since known = faults.remove(key);
        if (known != null) {
            events.accept(new SessionEvent.Note(
                    nowNs,
                    String.format(
                            Locale.ROOT, "%s: %s is over, after %.1f s", source, name, (nowNs - known.ns) / 1e9)));
        }
    }

    /** Clears every fault of {@code source} but those of these names. */
    void clearOthers(String source, List<String> but, long nowNs) {
        for (Fault fault : all()) {
            if (!but.contains(fault.name)) {
                clear(source, fault.name, nowNs);
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
        return faults.values().stream().anyMatch(since -> since.fault.grave && since.fault.recording == recording);
    }
}
