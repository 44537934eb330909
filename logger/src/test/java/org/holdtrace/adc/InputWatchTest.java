package org.holdtrace.adc;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import java.util.function.IntUnaryOperator;
import org.holdtrace.adc.Ads1115.Mode;
import org.holdtrace.adc.Ads1115.Setup;
import org.holdtrace.adc.model.Ads1115Model;
import org.holdtrace.adc.model.ModelRegisterBus;
import org.holdtrace.adc.model.SimulatedClock;
import org.holdtrace.session.ChannelKind;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class InputWatchTest {
    private static final long SECOND_NS = 1_000_000_000L;
    private static final double STEP = 187.5e-6;

    private final SimulatedClock clock = new SimulatedClock(0);
    private final Ads1115Model chip = new Ads1115Model(clock, (input, timeNs) -> 2.5);
    private final Ads1115 adc = new Ads1115(
            new ModelRegisterBus(chip, clock, 400_000),
            Setup.of(Mode.CONTINUOUS, Ads1115Rate.SPS_860, Ads1115Range.V6_144),
            clock);
    private final List<String> heard = new ArrayList<>();
    private long raisedNs = -1;
    private long nowNs;

    private final InputWatch.Listener listener = new InputWatch.Listener() {
        @Override
        public void raised(long timeNs, SensorInput input, InputFault fault, String text) {
            raisedNs = timeNs;
            heard.add("+" + fault.label());
        }

        @Override
        public void cleared(long timeNs, SensorInput input, InputFault fault, String text) {
            heard.add("-" + fault.label());
        }
    };

    private InputWatch watch(Signal signal) {
        SensorInput input = new SensorInput("pressure", ChannelKind.PRESSURE, 0, signal, 1, 0, 4e7, true);
        return new InputWatch(input, adc, 5, listener);
    }

    /** Feeds a second at {@code rateHz}; negative counts of Integer.MIN_VALUE stand for failed readings. */
    private void feed(InputWatch watch, double rateHz, double seconds, IntUnaryOperator count) {
        int n = (int) (rateHz * seconds);
        for (int i = 0; i < n; i++) {
            nowNs += (long) (1e9 / rateHz);
            int c = count.applyAsInt(i);
            if (c == Integer.MIN_VALUE) {
                watch.failed(nowNs, new AdcException("0x48 on i2c-1: reading: Remote I/O error"));
            } else {
                watch.sample(nowNs, c);
            }
        }
    }

    private static int code(double volts) {
        return (int) Math.round(volts / STEP);
    }

    @ParameterizedTest
    @CsvSource({"0.24, +input.wire", "4.76, +input.wire", "0.26, ''", "4.74, ''", "0.0, +input.wire", "5.0, +input.wire"
    })
    void aBrokenRatiometricWireIsNamedWithinASecond(double volts, String expected) {
        for (double rateHz : new double[] {50, 250, 860}) {
            heard.clear();
            InputWatch watch = watch(Signal.Ratiometric.common());
            feed(watch, rateHz, 1, i -> code(2.5) + i % 2);
            long brokenNs = nowNs;
            feed(watch, rateHz, 1, i -> code(volts) + i % 2);
            assertEquals(expected, String.join(" ", heard));
            if (!expected.isEmpty()) {
                assertTrue(raisedNs - brokenNs < 150_000_000, "took " + (raisedNs - brokenNs) + " ns");
                feed(watch, rateHz, 1, i -> code(2.5) + i % 2);
                assertEquals(List.of("+input.wire", "-input.wire"), heard);
                assertEquals(List.of(), watch.words());
            }
        }
    }

    /** NAMUR NE 43, reference value EL-05: fault at 3.6 and 21.0 mA; 3.6 to 3.8 and 20.5 to 21.0 mA are no fault. */
    @ParameterizedTest
    @CsvSource({
        "3.55, +input.wire",
        "3.65, +input.range",
        "3.85, ''",
        "20.45, ''",
        "20.6, +input.range",
        "21.05, +input.wire",
        "0, +input.wire"
    })
    void currentLimitsAreThoseOfNe43(double milliamps, String expected) {
        InputWatch watch = watch(new Signal.Current(150));
        feed(watch, 250, 1, i -> code(0.15 * milliamps) + i % 2);
        assertEquals(expected, String.join(" ", heard));
        assertEquals(expected.endsWith("wire"), !watch.words().isEmpty());
    }

    @Test
    void aFaultIsSaidInTheWordsOfTheTrade() {
        InputWatch watch = watch(new Signal.Current(150));
        feed(watch, 250, 1, i -> code(0.15 * 0.8));
        assertEquals(List.of("pressure: wire broken or shorted, or transducer without supply: 0.80 mA"), watch.words());
    }

    @Test
    void oneSpikeOrOneLostReadingIsNoFault() {
        InputWatch watch = watch(Signal.Ratiometric.common());
        feed(watch, 250, 5, i -> i % 100 == 7 ? code(0) : i % 100 == 50 ? Integer.MIN_VALUE : code(2.5) + i % 2);
        assertEquals(List.of(), heard);
    }

    @Test
    void aBusThatFailsIsNamedAndOverOnceItAnswersAgain() {
        InputWatch watch = watch(Signal.Ratiometric.common());
        feed(watch, 250, 0.5, i -> Integer.MIN_VALUE);
        assertEquals(List.of("+adc.bus"), heard);
        assertTrue(raisedNs < 100_000_000);
        assertEquals(
                "pressure: no reading: 0x48 on i2c-1: reading: Remote I/O error",
                watch.words().get(0));
        feed(watch, 250, 0.5, i -> code(2.5) + i % 2);
        assertEquals(List.of("+adc.bus", "-adc.bus"), heard);
    }

    @Test
    void aContactThatChattersIsOneFaultAndNotAHundred() {
        InputWatch watch = watch(Signal.Ratiometric.common());
        feed(watch, 250, 10, i -> i % 5 == 0 ? code(0) : code(2.5) + i % 2);
        assertEquals(List.of("+input.wire"), heard);
        assertTrue(raisedNs < SECOND_NS);
    }

    @Test
    void theEndOfTheConverterIsSaturation() {
        InputWatch watch = watch(new Signal.Voltage(0, 10));
        feed(watch, 250, 1, i -> 32_767);
        assertEquals(List.of("+input.saturated"), heard);
    }

    @Test
    void aSignalFromZeroVoltsAtRestIsNoFault() {
        InputWatch watch = watch(new Signal.Voltage(0, 10));
        feed(watch, 250, 3, i -> -1);
        assertEquals(List.of(), heard);
    }

    @Test
    void aLowOrMovedSupplyIsNamedAtItsFirstReading() {
        InputWatch watch = new InputWatch(SensorInput.supply(1, 1, 5), adc, 5, listener);
        watch.calibratedBy(5.02);
        watch.sample(SECOND_NS, code(5.03));
        assertEquals(List.of(), heard);
        watch.sample(2 * SECOND_NS, code(4.98));
        assertEquals(List.of("+supply.moved"), heard);
        assertEquals(List.of(), watch.words(), "a doubt, no fault");
        watch.sample(3 * SECOND_NS, code(4.6));
        assertEquals(
                "supply: too low: 4.600 V, expected at least 4.750 V",
                watch.words().get(0));
        watch.sample(4 * SECOND_NS, code(5.02));
        assertEquals(
                List.of("+supply.moved", "-supply.moved", "+supply.low", "-supply.low").stream()
                        .sorted()
                        .toList(),
                heard.stream().sorted().toList());
    }

    /** Samples the simulated chip as the firmware does, proofs included. */
    private void sample(InputWatch watch, double seconds) throws AdcException {
        long endNs = clock.nanoTime() + (long) (seconds * 1e9);
        while (clock.nanoTime() < endNs) {
            clock.waitNs(4_000_000);
            long now = clock.nanoTime();
            watch.sample(now, adc.read(0));
            if (watch.wantsProof(now)) {
                watch.proved(now, adc.follows(0, watch.code()));
            }
        }
    }

    @Test
    void aQuietInputIsNotCalledStuckHoweverLong() throws AdcException {
        adc.restart();
        InputWatch watch = watch(Signal.Ratiometric.common());
        sample(watch, 600);
        assertEquals(List.of(), heard);
    }

    @Test
    void aConverterThatHangsIsNamedWithinASecondAndRecovers() throws AdcException {
        adc.restart();
        InputWatch watch = watch(Signal.Ratiometric.common());
        for (int fault = 0; fault < 3; fault++) {
            heard.clear();
            sample(watch, 3.3);
            chip.hang(true);
            long hungNs = clock.nanoTime();
            sample(watch, 1.1);
            assertEquals(List.of("+input.stuck"), heard);
            assertTrue(raisedNs - hungNs < 1_050_000_000, "took " + (raisedNs - hungNs) + " ns");
            assertTrue(watch.has(InputFault.STUCK));
            chip.hang(false);
            sample(watch, 1.5);
            assertEquals(List.of("+input.stuck", "-input.stuck"), heard);
        }
    }

    @Test
    void proofsCostLittleOfAQuietMinute() throws AdcException {
        adc.restart();
        InputWatch watch = watch(Signal.Ratiometric.common());
        long before = chip.transfers();
        sample(watch, 60);
        // 250 reads a second, looks at the set-up, and no more than one proof a second.
        assertTrue(chip.transfers() - before < 60 * 300, (chip.transfers() - before) + " transfers");
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8})
    void everyFaultThatBeginsEndsWhateverComes(long seed) {
        SplittableRandom random = new SplittableRandom(seed);
        InputWatch watch = watch(Signal.Ratiometric.common());
        for (int stretch = 0; stretch < 60; stretch++) {
            int kind = random.nextInt(5);
            feed(watch, 250, random.nextDouble(0.01, 1.5), i -> switch (kind) {
                case 0 -> Integer.MIN_VALUE;
                case 1 -> code(0.1);
                case 2 -> 32_767;
                case 3 -> random.nextInt(-32_768, 32_768);
                default -> code(2.5) + random.nextInt(3);
            });
        }
        feed(watch, 250, 1, i -> code(2.5) + i % 2);
        for (InputFault fault : InputFault.values()) {
            assertFalse(watch.has(fault), fault.label() + ", seed " + seed);
            long begun = heard.stream().filter(("+" + fault.label())::equals).count();
            long ended = heard.stream().filter(("-" + fault.label())::equals).count();
            assertEquals(begun, ended, fault.label() + ", seed " + seed);
        }
        assertEquals(List.of(), watch.words());
    }
}
