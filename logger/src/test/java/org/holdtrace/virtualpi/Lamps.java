package org.holdtrace.virtualpi;

import java.util.ArrayList;
import java.util.List;
import java.util.TreeMap;
import org.holdtrace.panel.PanelPattern;
import org.holdtrace.panel.PanelSign;

/** What the panel's outputs did, by the log of the emulated pins; lamps wired as docs/logger.md says. */
final class Lamps {
    static final int BUTTON = 27;
    static final int RIGHT = 23;
    private static final int[] LAMPS = {17, 22, RIGHT};
    private static final long STEP_NS = 50_000_000;

    /** Of 48 slots of three lamps; the emulated computer is late at times. */
    private static final int SLOTS_RIGHT = 45;

    /** An output took another level. */
    record Change(long ns, int gpio, boolean high) {}

    private final List<Change> changes;
    private final List<TreeMap<Long, Boolean>> lit = new ArrayList<>();

    Lamps(List<Change> changes) {
        this.changes = List.copyOf(changes);
        for (int gpio : LAMPS) {
            TreeMap<Long, Boolean> one = new TreeMap<>();
            one.put(Long.MIN_VALUE, false);
            for (Change change : changes) {
                if (change.gpio == gpio) {
                    one.put(change.ns, change.high);
                }
            }
            lit.add(one);
        }
    }

    /** When an output went on first after {@code sinceNs}; -1 where it has not. */
    long onAfter(int gpio, long sinceNs) {
        for (Change change : changes) {
            if (change.gpio == gpio && change.high && change.ns >= sinceNs) {
                return change.ns;
            }
        }
        return -1;
    }

    /** Whether the lamps showed a whole cycle of a sign that began at {@code fromNs}. */
    private boolean shows(PanelSign sign, long fromNs) {
        int right = 0;
        for (int slot = 0; slot < PanelPattern.SLOTS; slot++) {
            long middleNs = slot * PanelPattern.SLOT_NS + PanelPattern.SLOT_NS / 2;
            for (int lamp = 0; lamp < LAMPS.length; lamp++) {
                boolean on = lit.get(lamp).floorEntry(fromNs + middleNs).getValue();
                right += on == PanelPattern.of(sign).isLit(lamp, middleNs) ? 1 : 0;
            }
        }
        return right >= SLOTS_RIGHT;
    }

    /** The signs that were shown for a cycle or more, each where it began anew, from one time to another, ns. */
    List<PanelSign> signs(long fromNs, long toNs) {
        List<PanelSign> seen = new ArrayList<>();
        for (long at = fromNs; at <= toNs - PanelPattern.SLOTS * PanelPattern.SLOT_NS; at += STEP_NS) {
            for (PanelSign sign : PanelSign.values()) {
                if (shows(sign, at) && (seen.isEmpty() || seen.get(seen.size() - 1) != sign)) {
                    seen.add(sign);
                }
            }
        }
        return seen;
    }

    /** Whether a sign was shown at any time of a span. */
    boolean showed(PanelSign sign, long fromNs, long toNs) {
        return signs(fromNs, toNs).contains(sign);
    }
}
