package org.holdtrace.adc;

/** A chip on a bus that sends and receives at once. Not for use from several threads at once. */
public interface SpiBus extends AutoCloseable {
    /** Where it is, such as {@code spidev0.0}: for messages. */
    String name();

    /**
     * One transfer under one chip select: sends all of {@code sent} and fills {@code received}.
     *
     * @param received of the same length as {@code sent}
     * @throws AdcException where not every byte was moved
     */
    void transfer(byte[] sent, byte[] received) throws AdcException;

    @Override
    void close();
}
