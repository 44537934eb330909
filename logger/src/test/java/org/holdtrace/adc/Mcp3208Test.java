package org.holdtrace.adc;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.List;
import org.holdtrace.adc.model.Mcp3208Model;
import org.holdtrace.adc.model.Mcp3208Model.Wire;
import org.holdtrace.adc.model.SimulatedClock;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The driver against the bit-exact model. Bytes and codes: reference value EL-03 (data sheet DS21298). */
class Mcp3208Test {
    private final SimulatedClock clock = new SimulatedClock(0);
    private final double[] volts = {0.5, 1.0, 1.5, 2.0, 2.5, 3.0, 3.5, 4.0};
    private final Mcp3208Model chip = new Mcp3208Model(clock, (input, timeNs) -> volts[input], 5);

    @Test
    void theBytesSentAreThoseOfTheDataSheet() throws AdcException {
        List<String> sent = new ArrayList<>();
        SpiBus spy = new SpiBus() {
            @Override
            public String name() {
                return "spidev0.0";
            }

            @Override
            public void transfer(byte[] out, byte[] in) {
                sent.add(HexFormat.ofDelimiter(" ").formatHex(out));
            }

            @Override
            public void close() {}
        };
        Mcp3208 adc = new Mcp3208(spy, 5, 1);
        adc.read(5);
        adc.read(0);
        adc.read(3);
        // EL-03: channel 5 is 07 40 00.
        assertEquals(List.of("07 40 00", "06 00 00", "06 c0 00"), sent);
    }

    @ParameterizedTest
    @CsvSource({"2.5, 2048", "4.998779296875, 4095", "0.0012207031250, 1", "0, 0", "7, 4095", "-1, 0"})
    void aCodeIsA4096thOfTheReference(double atPin, int code) throws AdcException {
        volts[3] = atPin;
        assertEquals(code, new Mcp3208(chip, 5, 1).read(3));
    }

    @Test
    void sixteenConversionsAreAddedUp() throws AdcException {
        int[] calls = {0};
        // Half of them one step higher: the mean lies between two steps of the converter.
        Mcp3208Model noisy =
                new Mcp3208Model(clock, (input, timeNs) -> (calls[0]++ % 2 == 0 ? 1000.5 : 1001.5) * 5 / 4096, 5);
        Mcp3208 adc = new Mcp3208(noisy, 5, 16);
        assertEquals(16 * 1000 + 8, adc.read(0));
        assertEquals(5.0 / 65_536, adc.voltsPerCount(0), 1e-15);
        assertEquals(0, adc.lowestCount(0));
        assertEquals(65_520, adc.highestCount(0));
        assertEquals(16, noisy.conversions());
    }

    @Test
    void aMeanOfReadingsOfWhichOneWasCutOffIsSaturation() throws AdcException {
        int[] calls = {0};
        Mcp3208Model noisy = new Mcp3208Model(clock, (input, timeNs) -> calls[0]++ == 3 ? 5.2 : 4.9, 5);
        Mcp3208 adc = new Mcp3208(noisy, 5, 8);
        assertEquals(adc.highestCount(0), adc.read(0));
    }

    @Test
    void everyInputGivesItsOwnVoltage() throws AdcException {
        Mcp3208 adc = new Mcp3208(chip, 5, 4);
        for (int input = 0; input < 8; input++) {
            assertEquals(volts[input], adc.read(input) * adc.voltsPerCount(input), 5.0 / 4096);
        }
    }

    @Test
    void aTransferThatFailsIsAnErrorAndTheNextIsRight() throws AdcException {
        Mcp3208 adc = new Mcp3208(chip, 5, 4);
        chip.fail(1);
        assertThrows(AdcException.class, () -> adc.read(0));
        assertEquals(4 * 409, adc.read(0));
    }

    @Test
    void aDataWireThatIsOutIsNoReading() {
        Mcp3208 adc = new Mcp3208(chip, 5, 4);
        chip.wire(Wire.OUT);
        AdcException e = assertThrows(AdcException.class, () -> adc.read(0));
        assertEquals(
                "MCP3208 at a simulated bus does not answer: its null bit is 1 (received FF FF FF);"
                        + " check supply, chip select and the data wire to the computer",
                e.getMessage());
        assertThrows(AdcException.class, adc::restart);
    }

    @Test
    void inputsThatDifferShowThatTheConverterLives() throws AdcException {
        Mcp3208 adc = new Mcp3208(chip, 5, 4);
        assertTrue(adc.follows(0, adc.read(0)));
        Arrays.fill(volts, 2.2);
        assertFalse(adc.follows(0, adc.read(0)));
        chip.wire(Wire.SHORTED);
        assertTrue(adc.follows(0, adc.read(0)), "at 0 V it cannot be told");
    }

    @Test
    void anImpossibleSetUpIsRefused() {
        assertThrows(IllegalArgumentException.class, () -> new Mcp3208(chip, Double.NaN, 4));
        assertThrows(IllegalArgumentException.class, () -> new Mcp3208(chip, 5, 0));
        assertThrows(IllegalArgumentException.class, () -> new Mcp3208(chip, 5, 65));
    }

    @Test
    void theModelAnswersBitByBitAsTheDataSheetDraws() throws AdcException {
        byte[] received = new byte[3];
        volts[5] = 2.5;
        chip.transfer(new byte[] {0x07, 0x40, 0x00}, received);
        assertEquals(0x08, received[1] & 0x1F);
        assertEquals(0x00, received[2]);
        // The same command three bits later gives the same answer three bits later.
        byte[] late = new byte[4];
        chip.transfer(new byte[] {0x00, (byte) 0xE8, 0x00, 0x00}, late);
        assertArrayEquals(
                new byte[] {0x01, 0x00, 0x00}, new byte[] {(byte) (late[1] & 0x03), late[2], (byte) (late[3] & 0xE0)});
    }
}
