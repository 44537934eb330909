package org.holdtrace.adc;

import java.util.Locale;
import org.holdtrace.quantity.Require;

/**
 * Driver of the MCP3208 class of converters: eight inputs against ground, 12 bit, a conversion for each transfer.
 *
 * <pre>
 * sent      0000 01 S D2 | D1 D0 000000 | 00000000     S: 1 single-ended; D2..D0: input
 * received  ---- ------- | ---  0 BBBB  | BBBBBBBB     0: the null bit; B: the code, high bits first
 * </pre>
 *
 * <p>Several conversions are added up and the sum is the count, so that averaging gains resolution: with 16 of them one
 * count is a sixteenth of the converter's own step. Source: data sheet DS21298; reference value EL-03. The clock must be
 * at most 2 MHz at a supply of 5 V and 1 MHz at 2.7 V (same data sheet). Not for use from several threads at once.
 */
public final class Mcp3208 implements Converter {
    private static final int INPUTS = 8;
    private static final int STEPS = 4096;
    private static final int BYTES = 3;
    private static final int NULL_BIT = 0x10;

    /** Beyond this reading takes longer than the fastest sampling interval. */
    static final int MOST_CONVERSIONS = 64;

    private final SpiBus bus;
    private final double referenceVolts;
    private final int conversions;
    private final byte[][] commands = new byte[INPUTS][];
    private final byte[] answer = new byte[BYTES];

    /**
     * A converter on {@code bus}.
     *
     * @param referenceVolts at the reference pin, V: full scale
     * @param conversions how many are added up for one count, 1 to 64
     */
    public Mcp3208(SpiBus bus, double referenceVolts, int conversions) {
        this.bus = bus;
        this.referenceVolts = Require.within(referenceVolts, 0.25, 5.5, "reference of the converter", "V");
        this.conversions =
                (int) Require.within(conversions, 1, MOST_CONVERSIONS, "conversions added up for one count", "");
        for (int input = 0; input < INPUTS; input++) {
            commands[input] = new byte[] {(byte) (0x06 | input >> 2), (byte) ((input & 3) << 6), 0};
        }
    }

    @Override
    public String name() {
        return "MCP3208 at " + bus.name();
    }

    @Override
    public int inputs() {
        return INPUTS;
    }

    @Override
    public double voltsPerCount(int input) {
        return referenceVolts / ((double) STEPS * conversions);
    }

    /** Without noise all conversions that are added up change at once. */
    @Override
    public int countsPerStep() {
        return conversions;
    }

    @Override
    public int lowestCount(int input) {
        return 0;
    }

    @Override
    public int highestCount(int input) {
        return (STEPS - 1) * conversions;
    }

    /**
     * {@inheritDoc}
     *
     * <p>Where one of the conversions was at the upper end, the upper end is returned: a mean over readings of which some
     * were cut off is no mean of the input.
     */
    @Override
    public int read(int input) throws AdcException {
        int sum = 0;
        boolean cutOff = false;
        for (int i = 0; i < conversions; i++) {
            int code = convert(input);
            cutOff |= code == STEPS - 1;
            sum += code;
        }
        return cutOff ? highestCount(input) : sum;
    }

    private int convert(int input) throws AdcException {
        bus.transfer(commands[input], answer);
        if ((answer[1] & NULL_BIT) != 0) {
            throw new AdcException(name() + " does not answer: its null bit is 1 (received "
                    + String.format(Locale.ROOT, "%02X %02X %02X", answer[0], answer[1], answer[2])
                    + "); check supply, chip select and the data wire to the computer");
        }
        return (answer[1] & 0x0F) << 8 | (answer[2] & 0xFF);
    }

    /**
     * {@inheritDoc}
     *
     * <p>This chip holds no old result, so what can hang is the wire: then every input has the same code.
     */
    @Override
    public boolean follows(int input, int count) throws AdcException {
        int code = convert(input);
        for (int other = 0; other < INPUTS; other++) {
            if (convert(other) != code) {
                return true;
            }
        }
        // All at 0 V may be true: a board with nothing else wired and a transducer at rest.
        return code == 0;
    }

    /** Nothing is stored in the chip; looks whether it answers. */
    @Override
    public void restart() throws AdcException {
        convert(0);
    }

    @Override
    public void close() {
        bus.close();
    }
}
