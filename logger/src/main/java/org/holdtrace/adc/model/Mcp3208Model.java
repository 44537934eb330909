package org.holdtrace.adc.model;

import org.holdtrace.adc.AdcException;
import org.holdtrace.adc.SpiBus;
import org.holdtrace.adc.SteadyClock;
import org.holdtrace.quantity.Require;

/**
 * An MCP3208 as seen from its bus, bit by bit: after chip select it waits for a 1, takes mode and input, samples, answers
 * a null bit and twelve bits. Mode 0. Before that its output floats, and what is read is a pull-up's ones. Faults on
 * demand: transfers that fail, a data wire that is out (all ones) or shorted to ground (all zeros).
 */
public final class Mcp3208Model implements SpiBus {
    private static final int STEPS = 4096;
    private static final int COMMAND_BITS = 5;
    /** One bit time to sample, one for the null bit, then the code. */
    private static final int NULL_AT = 1;

    private static final int CODE_BITS = 12;

    private final SteadyClock clock;
    private final VoltageSource source;
    private final double referenceVolts;
    private int failNext;
    private Wire wire = Wire.WHOLE;
    private long conversions;

    /** What is the matter with the wire from the chip. */
    public enum Wire {
        WHOLE,
        OUT,
        SHORTED
    }

    public Mcp3208Model(SteadyClock clock, VoltageSource source, double referenceVolts) {
        this.clock = clock;
        this.source = source;
        this.referenceVolts = Require.positive(referenceVolts, "reference of the converter", "V");
    }

    /** The next {@code count} transfers fail. */
    public void fail(int count) {
        failNext = count;
    }

    /** Breaks or mends the wire. */
    public void wire(Wire now) {
        wire = now;
    }

    /** Conversions so far. */
    public long conversions() {
        return conversions;
    }

    @Override
    public String name() {
        return "a simulated bus";
    }

    @Override
    public void transfer(byte[] sent, byte[] received) throws AdcException {
        if (failNext > 0) {
            failNext--;
            throw new AdcException("a simulated bus: 0 of " + sent.length + " bytes were transferred");
        }
        int command = 0;
        int taken = 0;
        int since = -1;
        int code = 0;
        for (int bit = 0; bit < 8 * sent.length; bit++) {
            int in = sent[bit >> 3] >> (7 - (bit & 7)) & 1;
            int out = 1;
            if (since >= 0) {
                int shift = CODE_BITS - (since - NULL_AT);
                out = since == 0 ? 1 : since == NULL_AT ? 0 : shift >= 0 ? code >> shift & 1 : 0;
                since++;
            } else if (taken > 0 || in == 1) {
                command = command << 1 | in;
                if (++taken == COMMAND_BITS) {
                    code = code(command);
                    since = 0;
                }
            }
            put(received, bit, wire == Wire.WHOLE ? out : wire == Wire.OUT ? 1 : 0);
        }
    }

    private static void put(byte[] bytes, int bit, int value) {
        int mask = 0x80 >> (bit & 7);
        bytes[bit >> 3] = (byte) (value == 1 ? bytes[bit >> 3] | mask : bytes[bit >> 3] & ~mask);
    }

    private int code(int command) {
        conversions++;
        int input = command & 7;
        long now = clock.nanoTime();
        double volts = source.volts(input, now);
        if ((command & 8) == 0) {
            volts -= source.volts(input ^ 1, now);
        }
        double code = Math.floor(volts / referenceVolts * STEPS);
        return (int) Math.max(0, Math.min(STEPS - 1, code));
    }

    @Override
    public void close() {
        // Nothing is open.
    }
}
