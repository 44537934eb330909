package org.holdtrace.command;

/** The call was wrong: an unknown option, a missing value, an output that cannot be written. Exit code 2. */
final class UsageException extends Exception {
    private static final long serialVersionUID = 1L;

    UsageException(String message) {
        super(message);
    }
}
