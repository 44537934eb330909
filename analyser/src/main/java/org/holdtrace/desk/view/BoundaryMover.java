package org.holdtrace.desk.view;

import org.holdtrace.trace.Boundary;

/** Who is told, on the event thread, that somebody moves a boundary. */
public interface BoundaryMover {
    /** {@code boundary} of hold test {@code holdTest} (1 for the first) now is at {@code toS}, s, where it may be. */
    void move(int holdTest, Boundary boundary, double toS);
}
