package org.holdtrace.desk.classroom;

import java.awt.Component;

/** Whether somebody has read the usual cautions: asked before the first test on a real line. */
@FunctionalInterface
public interface SafetyGate {
    /** True once they were read and confirmed; asks for that, over {@code over}, where they were not. On the event thread. */
    boolean confirmed(Component over);
}
