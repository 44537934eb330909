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
     * The latest conversion of an input as a signed raw count; waits for one conversion at the most, or for three where
     * the input is another than that of the last call.
     *
     * @throws AdcException where nothing was read: there is never a count that was not converted
     */
    int read(int input) throws AdcException;

    /**
     * Whether conversions still follow what is asked: converts otherwise than usual and looks whether the answer is
     * another. A steady input of little noise gives one code for minutes, a converter that hangs gives one for ever; this
     * tells them apart. Takes some conversions' time.
     *
     * @param count the code that has come for so long
     * @return false only where the converter certainly hangs; true also where it cannot be told
     * @throws AdcException where nothing was read
     */
    boolean follows(int input, int count) throws AdcException;

    /** Volts of one count at {@code input}, at the converter's own pin. */
    double voltsPerCount(int input);

    /** By how many counts the reading moves at the least: more than one where conversions are added up. */
    default int countsPerStep() {
        return 1;
    }

    /** The count below which the converter cannot go at {@code input}. */
    int lowestCount(int input);

    /** The count above which the converter cannot go. */
    int highestCount(int input);

    /** Brings the hardware back to its set-up after a fault, such as a supply that failed and returned. */
    void restart() throws AdcException;

    @Override
    void close();
}
