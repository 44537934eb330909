package org.holdtrace.adc;

/**
 * A chip with 16-bit registers on a two-wire bus, its high byte first on the wire. Moves words and knows nothing of what
 * they mean. Not for use from several threads at once.
 */
public interface RegisterBus extends AutoCloseable {
    /** Where it is, such as {@code 0x48 on i2c-1}: for messages. */
    String name();

    /**
     * One combined transaction: writes the pointer, reads the word there.
     *
     * @return the word, 0 to 65535
     * @throws AdcException where the chip or the bus did not answer
     */
    int readWord(int register) throws AdcException;

    /** One transaction: writes {@code word} (its low 16 bits) into a register; the chip's pointer then stands there. */
    void writeWord(int register, int word) throws AdcException;

    /** Sets the chip's pointer for {@link #readLatest} and nothing else. */
    void point(int register) throws AdcException;

    /** One transaction of fewer bits: reads the word where the chip's pointer stands, 0 to 65535. */
    int readLatest() throws AdcException;

    @Override
    void close();
}
