package org.holdtrace.adc.model;

import java.io.IOException;

/** The simulated chip did not acknowledge its address. */
public final class NoAnswerException extends IOException {
    private static final long serialVersionUID = 1;

    NoAnswerException() {
        super("Remote I/O error (no acknowledge)");
    }
}
