package org.holdtrace.firmware;

/** The program was called in a way it does not understand. */
final class UsageException extends Exception {
    private static final long serialVersionUID = 1;

    UsageException(String message) {
        super(message);
    }
}
