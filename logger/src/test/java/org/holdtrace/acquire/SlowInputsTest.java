package org.holdtrace.acquire;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.holdtrace.adc.Ads1115;
import org.holdtrace.adc.Ads1115Range;
import org.holdtrace.adc.Ads1115Rate;
import org.holdtrace.adc.model.Ads1115Model;
import org.holdtrace.adc.model.ModelRegisterBus;
import org.holdtrace.adc.model.SimulatedClock;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What slow inputs beside the fast one cost it on a converter that has one conversion at a time. */
class SlowInputsTest {
    private static final int SECONDS = 60;

    private long samples;
    private long longestNs;
    private long beforeNs;

    @ParameterizedTest
    @CsvSource({"250, 0", "300, 0", "500, 2", "860, 5"})
    void upTo300HzTheyCostNoSampleAndBeyondNoMoreThanTheirConversionsTake(int rateHz, int missedEachTime)
            throws InterruptedException {
        SimulatedClock clock = new SimulatedClock(1_000_000_000L);
        Ads1115 chip = new Ads1115(
                new ModelRegisterBus(new Ads1115Model(clock, (pin, timeNs) -> 1 + 0.5 * pin), clock, 400_000),
                Ads1115.Setup.of(Ads1115.Mode.CONTINUOUS, Ads1115Rate.SPS_860, Ads1115Range.V4_096),
                clock);
        SampleRing ring = new SampleRing(1 << 17);
        Sampler sampler = new Sampler(
                chip, List.of(new Sampler.Input(0, 0, 1), new Sampler.Input(1, 1, rateHz)), ring, rateHz, clock);
        Thread thread = new Thread(sampler);
        long endNs = clock.nanoTime() + SECONDS * 1_000_000_000L;
        thread.start();
        while (clock.nanoTime() < endNs) {
            Thread.onSpinWait();
        }
        sampler.stop();
        thread.join();
        long missed = sampler.missed();
        ring.drain(
                (channel, timeNs, count) -> {
                    if (channel == 0 && timeNs < endNs) {
                        longestNs = samples == 0 ? 0 : Math.max(longestNs, timeNs - beforeNs);
                        beforeNs = timeNs;
                        samples++;
                        // Each count is the input's own, none of them the neighbour's.
                        assertEquals(1, count * chip.voltsPerCount(0), 1e-3);
                    }
                },
                Integer.MAX_VALUE);
        assertTrue(samples > rateHz * SECONDS * 0.9, samples + " samples");
        // The clock runs on until the sampler has heard that it should end.
        long times = sampledS(clock, endNs) + SECONDS + 1;
        assertTrue(missed <= missedEachTime * times, missed + " missed in " + times + " readings");
        assertTrue(longestNs < 9_000_000, "a gap of " + longestNs + " ns");
    }

    private static long sampledS(SimulatedClock clock, long sinceNs) {
        return (clock.nanoTime() - sinceNs) / 1_000_000_000L;
    }
}
