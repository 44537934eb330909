package org.holdtrace.adc;

/**
 * An analogue-to-digital converter with one or more inputs, as sampling sees it. Not for use from several threads at
 * once.
 */
public interface Converter extends AutoCloseable {
    /** What it is and where, such as {@code ADS1115 at 0x48 on i2c-1}: for messages. */
    String name();

    /** How many inputs it has, numbered from 0. */
    int inputs();

    /**
     * The latest conversion of an input as a signed raw count; waits for one conversion at the most.
     *
     * @throws AdcException where nothing was read: there is never a count that was not converted
     */
    int read(int input) throws AdcException;

    /** Volts of one count at {@code input}. */
    double voltsPerCount(int input);

    /** The count below which the converter cannot go at {@code input}: reading it means saturation. */
    int lowestCount(int input);

    /** The count above which the converter cannot go. */
    int highestCount(int input);

    /** Brings the hardware back to its set-up after a fault, such as a supply that failed and returned. */
    void restart() throws AdcException;

    @Override
    void close();
}
