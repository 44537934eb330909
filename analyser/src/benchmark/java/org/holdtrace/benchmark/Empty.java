package org.holdtrace.benchmark;

/** A program that does nothing: what starting a Java machine costs. */
public final class Empty {
    private Empty() {}

    /** Does nothing. */
    public static void main(String[] args) {
        // Nothing, so that only the start is timed.
    }
}
