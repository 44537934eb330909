package org.holdtrace.adc;

/** A conversion that could not be read. Says which converter and what the bus said. */
public final class AdcException extends Exception {
    private static final long serialVersionUID = 1;

    public AdcException(String message, Throwable cause) {
        super(message, cause);
    }

    public AdcException(String message) {
        super(message);
    }
}
