package org.holdtrace.quantity;

/** A unit or quantity that cannot be understood; says what was found and what was expected. */
public final class QuantityException extends IllegalArgumentException {
    private static final long serialVersionUID = 1L;

    private final String found;
    private final String expected;

    /**
     * @param found what stands there
     * @param expected what would have been right
     */
    public QuantityException(String found, String expected) {
        super(found + "; expected " + expected);
        this.found = found;
        this.expected = expected;
    }

    /** What stands there. */
    public String found() {
        return found;
    }

    /** What would have been right. */
    public String expected() {
        return expected;
    }
}
