package org.holdtrace.firmware;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.ArrayList;
import java.util.List;
import org.holdtrace.firmware.FaultBoard.Fault;
import org.holdtrace.session.SessionEvent;
import org.junit.jupiter.api.Test;

class FaultBoardTest {
    private static final Fault LOW = new Fault("disk.low", "little room", true, false);
    private static final Fault FULL = new Fault("disk.full", "no room", true, true);

    private final List<String> told = new ArrayList<>();
    private final FaultBoard faults = new FaultBoard(event -> told.add(
            event instanceof SessionEvent.Fault fault
                    ? "fault " + fault.name()
                    : event instanceof SessionEvent.Note note ? note.text() : "?"));

    private void disk(long nowNs, Fault... found) {
        faults.clearOthers("disk", List.of(found).stream().map(Fault::name).toList(), nowNs);
        for (Fault fault : found) {
            faults.raise("disk", fault, nowNs);
        }
    }

    @Test
    void whatIsThereWhenWorseComesIsNotToldToBeOver() {
        disk(0, LOW);
        disk(2_000_000_000L, LOW, FULL);
        assertEquals(List.of("fault disk.low", "fault disk.full"), told);
        disk(5_000_000_000L, LOW);
        disk(9_000_000_000L);
        assertEquals(
                List.of(
                        "fault disk.low",
                        "fault disk.full",
                        "disk: disk.full is over, after 3.0 s",
                        "disk: disk.low is over, after 9.0 s"),
                told);
    }
}
