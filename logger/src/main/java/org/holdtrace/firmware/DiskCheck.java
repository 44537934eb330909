package org.holdtrace.firmware;

import java.util.List;
import org.holdtrace.record.Problem;
import org.holdtrace.record.Recorder;

/** Tells what is wrong with writing, and keeps in mind the session that a full disk has ended. One thread. */
final class DiskCheck {
    private static final String DISK = "disk";

    private final Recorder recorder;
    private boolean full;
    private boolean endedSession;

    DiskCheck(Recorder recorder) {
        this.recorder = recorder;
    }

    void tell(FaultBoard faults, long nowNs) {
        full = recorder.isFull(); // first: a session that ends for it then has the fault
        List<Problem> problems = recorder.problems();
        faults.clearOthers(DISK, problems.stream().map(Problem::name).toList(), nowNs);
        for (Problem found : problems) {
            faults.raise(DISK, new FaultBoard.Fault(found.name(), found.text(), true, found.grave()), nowNs);
        }
    }

    /** Whether there was too little room at the last look. */
    boolean isFull() {
        return full;
    }

    /** A session was ended since the disk is full. */
    void endsSession() {
        endedSession = true;
    }

    /** Another session begins: the one that was ended needs none in its place. */
    void sessionBegins() {
        endedSession = false;
    }

    /** Whether there is room again since the disk ended a session; says so once. */
    boolean hasRoomAgain() {
        boolean again = endedSession && !full;
        endedSession &= !again;
        return again;
    }
}
