package org.holdtrace.command;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.holdtrace.link.Status;

/**
 * Shows states as they come: on a terminal one line that is drawn over, with each new advice above it, in a pipe a line
 * each second and at each change. What begins and ends (a session, a fault) has a line of its own in both.
 */
final class LiveView {
    private static final long EVERY_NS = 1_000_000_000L;

    private final Streams streams;
    private Status last;
    private long firstNs;
    private long printedNs;
    private int drawn;
    private List<String> faults = List.of();
    private Optional<String> session = Optional.empty();

    LiveView(Streams streams) {
        this.streams = streams;
    }

    /** Shows a state. */
    void show(Status status) {
        boolean begins = last == null || status.timeNs() < last.timeNs(); // the logger may have been started anew
        if (begins) {
            firstNs = status.timeNs();
        }
        tellSession(status.session());
        tellFaults(status.faults());
        if (streams.outIsTerminal()) {
            if (begins || !status.advice().equals(last.advice())) {
                note("  > " + status.advice());
            }
            String line = LiveText.line(status);
            streams.out().print("\r" + line + " ".repeat(Math.max(0, drawn - line.length())));
            drawn = line.length();
        } else if (begins || isChange(status) || status.timeNs() - printedNs >= EVERY_NS) {
            streams.out().println(LiveText.timedLine(status, firstNs));
            printedNs = status.timeNs();
        }
        streams.out().flush();
        last = status;
    }

    private boolean isChange(Status status) {
        return !status.phase().equals(last.phase())
                || status.strokes() != last.strokes()
                || status.enough() != last.enough()
                || !status.advice().equals(last.advice());
    }

    private void tellSession(Optional<String> now) {
        if (!now.equals(session)) {
            session.filter(name -> !name.equals(Status.NAMELESS)).ifPresent(name -> note("recording ended: " + name));
            now.ifPresent(name -> note("recording: " + name));
            session = now;
        }
    }

    private void tellFaults(List<String> now) {
        List<String> gone = new ArrayList<>(faults);
        gone.removeAll(now);
        List<String> come = new ArrayList<>(now);
        come.removeAll(faults);
        // One whose figures have changed is still the same: the room on a disk that is low does so from look to look.
        gone.removeIf(fault -> {
            Optional<String> still = come.stream()
                    .filter(other -> name(other).equals(name(fault)))
                    .findFirst();
            still.ifPresent(come::remove);
            return still.isPresent();
        });
        gone.forEach(fault -> note("no longer: " + fault));
        come.forEach(fault -> note("fault: " + fault));
        faults = now;
    }

    private static String name(String fault) {
        int colon = fault.indexOf(':');
        return colon < 0 ? fault : fault.substring(0, colon);
    }

    /** Prints a line of its own. */
    void note(String text) {
        clear();
        streams.out().println(PlainText.of(text));
        streams.out().flush();
    }

    /** Wipes the line before something else is printed. */
    void clear() {
        if (drawn > 0) {
            streams.out().print("\r" + " ".repeat(drawn) + "\r");
            streams.out().flush();
            drawn = 0;
        }
    }

    /** Leaves the last line standing. */
    void end() {
        if (drawn > 0) {
            streams.out().println();
            drawn = 0;
        }
        streams.out().flush();
    }
}
