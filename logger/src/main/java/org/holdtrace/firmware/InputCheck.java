package org.holdtrace.firmware;

/** Looks after one input: whether what it gives can be believed. One thread. */
interface InputCheck {
    /** Takes samples, from 0 to before {@code size}; times are ns on the logger's clock. */
    void samples(long[] timeNs, int[] counts, int size);

    /** Raises and clears what is wrong with the input by {@code nowNs}. */
    void tell(FaultBoard faults, long nowNs);

    /** Looks after nothing. */
    static InputCheck none() {
        return new InputCheck() {
            @Override
            public void samples(long[] timeNs, int[] counts, int size) {
                // Nothing is looked for.
            }

            @Override
            public void tell(FaultBoard faults, long nowNs) {
                // Nothing was found.
            }
        };
    }
}
