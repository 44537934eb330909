package org.holdtrace.adc.model;

import java.util.Locale;
import org.holdtrace.adc.AdcException;
import org.holdtrace.adc.RegisterBus;
import org.holdtrace.adc.SteadyClock;

/** The bus to a simulated chip, byte by byte, taking the time the wire would. */
public final class ModelRegisterBus implements RegisterBus {
    /** Bits on the wire: start, address and acknowledge, three bytes, stop. */
    private static final int WRITE_BITS = 38;

    private static final int POINT_BITS = 20;
    private static final int READ_BITS = 29;

    private final Ads1115Model chip;
    private final SteadyClock clock;
    private final double bitNs;
    private final byte[] bytes = new byte[3];

    /**
     * The bus to {@code chip}.
     *
     * @param busHz clock of the bus, 1/s, which sets how long a transfer lasts; 0: no time at all
     */
    public ModelRegisterBus(Ads1115Model chip, SteadyClock clock, double busHz) {
        this.chip = chip;
        this.clock = clock;
        bitNs = busHz > 0 ? 1e9 / busHz : 0;
    }

    @Override
    public String name() {
        return "0x48 on a simulated bus";
    }

    @Override
    public int readWord(int register) throws AdcException {
        point(register);
        return readLatest();
    }

    @Override
    public void writeWord(int register, int word) throws AdcException {
        bytes[0] = (byte) register;
        bytes[1] = (byte) (word >> 8);
        bytes[2] = (byte) word;
        clock.waitNs(Math.round(WRITE_BITS * bitNs));
        try {
            chip.write(bytes, 3);
        } catch (NoAnswerException e) {
            throw failed("writing register " + register, e);
        }
    }

    @Override
    public void point(int register) throws AdcException {
        bytes[0] = (byte) register;
        clock.waitNs(Math.round(POINT_BITS * bitNs));
        try {
            chip.write(bytes, 1);
        } catch (NoAnswerException e) {
            throw failed("pointing at register " + register, e);
        }
    }

    @Override
    public int readLatest() throws AdcException {
        clock.waitNs(Math.round(READ_BITS * bitNs));
        try {
            chip.read(bytes, 2);
        } catch (NoAnswerException e) {
            throw failed("reading", e);
        }
        return (bytes[0] & 0xFF) << 8 | (bytes[1] & 0xFF);
    }

    private AdcException failed(String what, NoAnswerException e) {
        return new AdcException(String.format(Locale.ROOT, "%s %s: %s", name(), what, e.getMessage()), e);
    }

    @Override
    public void close() {
        // Nothing is open.
    }
}
