package org.holdtrace.adc;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.holdtrace.adc.Ads1115.Mode;
import org.holdtrace.adc.Ads1115.Setup;
import org.holdtrace.adc.model.Ads1115Model;
import org.holdtrace.adc.model.ModelReadyPin;
import org.holdtrace.adc.model.ModelRegisterBus;
import org.holdtrace.adc.model.SimulatedClock;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * The driver against the register-exact model. Register words and voltages of codes: reference values EL-01 and EL-02
 * (data sheet SBAS444).
 */
class Ads1115Test {
    private static final long SECOND_NS = 1_000_000_000L;

    private final SimulatedClock clock = new SimulatedClock(5 * SECOND_NS);
    private final double[] volts = {1.5, 2.5, 0.25, 3.0};
    private final Ads1115Model chip = new Ads1115Model(clock, (input, timeNs) -> volts[input]);
    private final ModelRegisterBus bus = new ModelRegisterBus(chip, clock, 100_000);

    private Ads1115 started(Mode mode, Ads1115Range range) throws AdcException {
        Ads1115 adc = new Ads1115(bus, Setup.of(mode, Ads1115Rate.SPS_860, range), clock);
        adc.restart();
        return adc;
    }

    @Test
    void configurationWordsAreThoseOfTheDataSheet() {
        // EL-02: continuous, A0 to ground, 6.144 V, 860 SPS, comparator off = 0x40E3; the single one has bit 15 to
        // start.
        assertEquals(0x40E3, Ads1115Register.config(0, Ads1115Range.V6_144, Ads1115Rate.SPS_860, false, false));
        assertEquals(
                0xC383,
                Ads1115Register.START_OR_IDLE
                        | Ads1115Register.config(0, Ads1115Range.V4_096, Ads1115Rate.SPS_128, true, false));
    }

    @ParameterizedTest
    @CsvSource({"2.000, 16000", "4.095875, 32767", "9.0, 32767", "-9.0, -32768", "-0.001, -8", "0, 0"})
    void aCodeIsTheVoltageInStepsOf125MicrovoltsAt4096Millivolts(double atPin, int code) throws AdcException {
        for (Mode mode : Mode.values()) {
            volts[0] = atPin;
            assertEquals(code, started(mode, Ads1115Range.V4_096).read(0), mode.toString());
        }
    }

    @ParameterizedTest
    @EnumSource(Mode.class)
    void everyInputGivesItsOwnVoltageInWhateverOrder(Mode mode) throws AdcException {
        Ads1115 adc = started(mode, Ads1115Range.V6_144);
        for (int i = 0; i < 200; i++) {
            int input = (i * i + i / 3) % 4;
            assertEquals(volts[input] / 187.5e-6, adc.read(input), 0.5, "read " + i + " of input " + input);
            clock.waitNs(i * 37_000L);
        }
    }

    @Test
    void aContinuousReadIsOneShortTransferMostOfTheTime() throws AdcException {
        Ads1115 adc = started(Mode.CONTINUOUS, Ads1115Range.V6_144);
        adc.read(0);
        long before = chip.transfers();
        long fromNs = clock.nanoTime();
        int reads = 0;
        for (; clock.nanoTime() - fromNs < SECOND_NS; reads++) {
            clock.waitNs(4_000_000);
            adc.read(0);
        }
        // Ten looks at the configuration in that second, each two transfers of the model and the pointer put back.
        assertEquals(reads + 3.0 * 10, (double) (chip.transfers() - before), 3);
    }

    @ParameterizedTest
    @ValueSource(doubles = {-0.1, 0, 0.1})
    void aSingleConversionIsWaitedForWhateverTheOscillatorDoes(double rateError) throws AdcException {
        chip.rateError(rateError);
        Ads1115 adc = started(Mode.SINGLE, Ads1115Range.V6_144);
        for (int i = 0; i < 500; i++) {
            volts[0] = 0.001 * i;
            assertEquals(volts[0] / 187.5e-6, adc.read(0), 0.5);
        }
        // It learns how long this chip takes: not much longer than conversion and four transfers on the wire.
        long fromNs = clock.nanoTime();
        for (int i = 0; i < 100; i++) {
            adc.read(0);
        }
        double eachMs = (clock.nanoTime() - fromNs) / 1e8;
        assertTrue(eachMs < 1.163 / (1 + rateError) + 1.36 + 0.35, "took " + eachMs + " ms");
    }

    @ParameterizedTest
    @EnumSource(Mode.class)
    void aTransferThatIsNotAcknowledgedIsAnErrorAndTheNextReadIsRight(Mode mode) throws AdcException {
        Ads1115 adc = started(mode, Ads1115Range.V6_144);
        for (int fault = 1; fault < 4; fault++) {
            chip.refuse(1);
            AdcException e = assertThrows(AdcException.class, () -> adc.read(0));
            assertTrue(e.getMessage().contains("0x48"), e.getMessage());
            assertEquals(8000, adc.read(0));
        }
    }

    @ParameterizedTest
    @EnumSource(Mode.class)
    void afterTheSupplyFailedNoCountComesUntilTheSetUpIsBack(Mode mode) throws AdcException {
        Ads1115 adc = started(mode, Ads1115Range.V6_144);
        assertEquals(8000, adc.read(0));
        clock.waitNs(1_500_000);
        chip.brownOut();
        if (mode == Mode.CONTINUOUS) {
            // The chip answers 0 from now on, politely; a recorder would take it for 0 V.
            AdcException e = assertThrows(AdcException.class, () -> adc.read(0));
            assertTrue(e.getMessage().contains("lost its set-up: configuration reads 0x8583"), e.getMessage());
            assertThrows(AdcException.class, () -> adc.read(0));
            adc.restart();
        }
        assertEquals(8000, adc.read(0));
    }

    @Test
    void aSupplyThatFailsBetweenTwoReadsAtZeroVoltsIsSeenWithinATenthOfASecond() throws AdcException {
        volts[0] = 0;
        Ads1115 adc = started(Mode.CONTINUOUS, Ads1115Range.V6_144);
        adc.read(0);
        chip.brownOut();
        long fromNs = clock.nanoTime();
        assertThrows(AdcException.class, () -> {
            while (clock.nanoTime() - fromNs < SECOND_NS) {
                clock.waitNs(4_000_000);
                adc.read(0);
            }
        });
        assertTrue(clock.nanoTime() - fromNs < 110_000_000, "took " + (clock.nanoTime() - fromNs) + " ns");
    }

    @ParameterizedTest
    @ValueSource(ints = {0, 1, 2, 3})
    void aPointerMovedByAnotherProgramMakesNoReading(int register) throws AdcException {
        Ads1115 adc = started(Mode.CONTINUOUS, Ads1115Range.V6_144);
        for (int i = 0; i < 30; i++) {
            assertEquals(8000, adc.read(0));
            bus.readWord(register);
            clock.waitNs(7_000_000);
        }
    }

    @Test
    void nothingIsReadBeforeTheFirstStart() {
        Ads1115 adc = new Ads1115(bus, Setup.of(Mode.CONTINUOUS, Ads1115Rate.SPS_860, Ads1115Range.V6_144), clock);
        assertThrows(AdcException.class, () -> adc.read(0));
        assertEquals(0, chip.transfers());
    }

    @Test
    void aWireThatIsOutAndBackIsStartedAnew() throws AdcException {
        Ads1115 adc = started(Mode.CONTINUOUS, Ads1115Range.V6_144);
        chip.unplug(true);
        assertThrows(AdcException.class, () -> adc.read(0));
        assertThrows(AdcException.class, adc::restart);
        assertThrows(AdcException.class, () -> adc.read(0));
        chip.unplug(false);
        adc.restart();
        assertEquals(8000, adc.read(0));
    }

    @Test
    void aDeadBusIsNamedAsSuchAtTheStart() {
        RegisterBus dead = new WordBus(0xFFFF);
        Ads1115 adc = new Ads1115(dead, Setup.of(Mode.CONTINUOUS, Ads1115Rate.SPS_860, Ads1115Range.V6_144), clock);
        AdcException e = assertThrows(AdcException.class, adc::restart);
        assertEquals(
                "ADS1115 at 0x49 on i2c-7: wrote 0x40E3 into register 1, read back 0x7FFF;"
                        + " check supply, ground and the two bus wires",
                e.getMessage());
    }

    @ParameterizedTest
    @EnumSource(Mode.class)
    void aSteadyVoltageIsToldFromAConverterThatHangs(Mode mode) throws AdcException {
        Ads1115 adc = started(mode, Ads1115Range.V6_144);
        int count = adc.read(0);
        assertTrue(adc.follows(0, count));
        assertEquals(count, adc.read(0), "and reads on as before");
        chip.hang(true);
        if (mode == Mode.CONTINUOUS) {
            assertEquals(count, adc.read(0), "the old code comes for ever");
            assertFalse(adc.follows(0, count));
        } else {
            AdcException e = assertThrows(AdcException.class, () -> adc.read(0));
            assertTrue(e.getMessage().contains("had not ended"), e.getMessage());
        }
        chip.hang(false);
        assertEquals(8000, adc.read(0));
        assertTrue(adc.follows(0, 8000));
    }

    @Test
    void nearZeroVoltsAHangCannotBeToldAndIsNotClaimed() throws AdcException {
        volts[0] = 0.001;
        Ads1115 adc = started(Mode.CONTINUOUS, Ads1115Range.V6_144);
        assertTrue(adc.follows(0, adc.read(0)));
    }

    @Test
    void withTheReadyPinNoConversionIsReadTwice() throws AdcException {
        // The voltage climbs with time, so equal codes would be one conversion.
        Ads1115Model rising = new Ads1115Model(clock, (input, timeNs) -> (timeNs - 5e9) * 1e-9);
        ModelReadyPin pin = new ModelReadyPin(rising, clock);
        Ads1115 adc = new Ads1115(
                new ModelRegisterBus(rising, clock, 400_000),
                Setup.of(Mode.CONTINUOUS, Ads1115Rate.SPS_860, Ads1115Range.V4_096),
                clock,
                pin);
        adc.restart();
        int before = -1;
        for (int i = 0; i < 800; i++) {
            int count = adc.read(0);
            assertTrue(count > before, "code " + count + " after " + before);
            before = count;
        }
        assertTrue(adc.hearsReadyPin());
    }

    @Test
    void aReadyPinThatDiesIsStartedAnewAndReadingGoesOn() throws AdcException {
        ModelReadyPin pin = new ModelReadyPin(chip, clock);
        Ads1115 adc = new Ads1115(bus, Setup.of(Mode.CONTINUOUS, Ads1115Rate.SPS_860, Ads1115Range.V6_144), clock, pin);
        adc.restart();
        pin.die();
        for (int i = 0; i < 40; i++) {
            assertEquals(8000, adc.read(0));
        }
        assertEquals(1, pin.restarts());
        clock.waitNs(SECOND_NS);
        adc.read(0);
        assertTrue(adc.hearsReadyPin());
    }

    @Test
    void aReadyPinThatIsNotWiredCostsNextToNothing() throws AdcException {
        ModelReadyPin pin = new ModelReadyPin(new Ads1115Model(clock, (input, timeNs) -> 0), clock);
        Ads1115 adc = new Ads1115(bus, Setup.of(Mode.CONTINUOUS, Ads1115Rate.SPS_860, Ads1115Range.V6_144), clock, pin);
        adc.restart();
        long fromNs = clock.nanoTime();
        for (int i = 0; i < 10_000; i++) {
            adc.read(0);
        }
        // 10 000 reads of 0.29 ms, ten looks a second at the set-up, a wait of 1.3 ms now and then.
        assertEquals(2.9, (clock.nanoTime() - fromNs) / 1e9, 0.1);
        assertFalse(adc.hearsReadyPin());
    }

    @Test
    void rangesAndRatesAreChosenToFit() {
        assertEquals(Ads1115Range.V4_096, Ads1115Range.covering(3.3));
        assertEquals(Ads1115Range.V6_144, Ads1115Range.covering(4.75));
        assertEquals(Ads1115Range.V0_256, Ads1115Range.covering(0.2));
        // ±10 %: 250 Hz needs more than 278 SPS by the name plate.
        assertEquals(Ads1115Rate.SPS_475, Ads1115Rate.above(250));
        assertEquals(Ads1115Rate.SPS_860, Ads1115Rate.above(475));
        assertEquals(Ads1115Rate.SPS_860, Ads1115Rate.above(860));
        assertEquals(
                List.of(8, 860),
                List.of(Ads1115Rate.ofCode(0).hertz(), Ads1115Rate.ofCode(7).hertz()));
    }

    /** Answers every read with one word. */
    private record WordBus(int word) implements RegisterBus {
        @Override
        public String name() {
            return "0x49 on i2c-7";
        }

        @Override
        public int readWord(int register) {
            return word;
        }

        @Override
        public void writeWord(int register, int value) {}

        @Override
        public void point(int register) {}

        @Override
        public int readLatest() {
            return word;
        }

        @Override
        public void close() {}
    }
}
