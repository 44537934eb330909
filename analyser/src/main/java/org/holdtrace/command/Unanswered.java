package org.holdtrace.command;

import org.holdtrace.estimate.HoldTestResult;

/** Names and counts the sessions that could be read but gave no answer. */
final class Unanswered {
    private final Streams streams;
    private int count;

    Unanswered(Streams streams) {
        this.streams = streams;
    }

    /** Says on the error stream which hold tests of {@code session} gave no leak rate. */
    void look(SessionResult session) {
        String path = session.input().path().toString();
        if (session.tests().isEmpty()) {
            streams.problem(path + ": no hold test in it; expected a pump-up and pressure held after it, or a plateau");
            count++;
            return;
        }
        for (HoldTestResult result : session.tests()) {
            if (result.leak().isEmpty()) {
                streams.problem(path + ", hold test " + result.holdTest().number()
                        + ": no leak rate; neither its hold nor a plateau could be used");
                count++;
            }
        }
    }

    /** How many were named. */
    int count() {
        return count;
    }
}
