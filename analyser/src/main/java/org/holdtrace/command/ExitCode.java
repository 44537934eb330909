package org.holdtrace.command;

/** Exit codes of every command. Scripts rely on them. */
final class ExitCode {
    /** Everything asked for was done. */
    static final int DONE = 0;
    /** Done, but at least one input was refused or gave no answer; each is named on the error stream. */
    static final int SOME_REFUSED = 1;
    /** The call was wrong; nothing was done. */
    static final int WRONG_CALL = 2;

    private ExitCode() {}
}
