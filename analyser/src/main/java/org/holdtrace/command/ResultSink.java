package org.holdtrace.command;

import java.io.Closeable;
import java.io.IOException;

/** Takes results in order and prints them one way or another; closing it prints what comes at the end. */
interface ResultSink extends Closeable {
    /** Prints what came of the next session. */
    void session(SessionResult session) throws IOException;
}
