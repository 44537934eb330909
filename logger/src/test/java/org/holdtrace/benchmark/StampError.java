package org.holdtrace.benchmark;

import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Locale;
import org.holdtrace.acquire.LatenessHistogram;
import org.holdtrace.acquire.SampleRing;
import org.holdtrace.acquire.Sampler;
import org.holdtrace.adc.AdcException;
import org.holdtrace.adc.Ads1115;
import org.holdtrace.adc.Ads1115Range;
import org.holdtrace.adc.Ads1115Rate;
import org.holdtrace.adc.Converter;
import org.holdtrace.adc.SteadyClock;
import org.holdtrace.adc.model.Ads1115Model;
import org.holdtrace.adc.model.ModelRegisterBus;

/**
 * How wrong a sample's time stamp can be: the stamp is the middle of its reading, so by no more than half of what the
 * reading took. Called with the rate in Hz and seconds.
 */
public final class StampError {
    private StampError() {}

    /** Half of what each reading took. */
    private record Timed(Converter converter, LatenessHistogram halves) implements Converter {
        @Override
        public int read(int input) throws AdcException {
            long beforeNs = System.nanoTime();
            int count = converter.read(input);
            halves.record((System.nanoTime() - beforeNs) / 2);
            return count;
        }

        @Override
        public String name() {
            return converter.name();
        }

        @Override
        public int inputs() {
            return converter.inputs();
        }

        @Override
        public boolean follows(int input, int count) throws AdcException {
            return converter.follows(input, count);
        }

        @Override
        public double voltsPerCount(int input) {
            return converter.voltsPerCount(input);
        }

        @Override
        public int lowestCount(int input) {
            return converter.lowestCount(input);
        }

        @Override
        public int highestCount(int input) {
            return converter.highestCount(input);
        }

        @Override
        public void restart() throws AdcException {
            converter.restart();
        }

        @Override
        public void close() {
            converter.close();
        }
    }

    /** Measures. */
    public static void main(String[] args) throws InterruptedException {
        double rateHz = Double.parseDouble(args[0]);
        long seconds = Long.parseLong(args[1]);
        SteadyClock clock = SteadyClock.system();
        LatenessHistogram halves = new LatenessHistogram();
        Ads1115 chip = new Ads1115(
                new ModelRegisterBus(new Ads1115Model(clock, (pin, timeNs) -> 1.5), clock, 0),
                Ads1115.Setup.of(Ads1115.Mode.CONTINUOUS, Ads1115Rate.SPS_860, Ads1115Range.V6_144),
                clock);
        SampleRing ring = new SampleRing(1 << 16);
        Sampler sampler =
                new Sampler(new Timed(chip, halves), List.of(new Sampler.Input(0, 0, 1)), ring, rateHz, clock);
        Thread thread = new Thread(sampler, "sampler");
        thread.start();
        for (long i = 0; i < 20 * seconds; i++) {
            Thread.sleep(50);
            ring.drain((channel, timeNs, count) -> {}, Integer.MAX_VALUE);
        }
        sampler.stop();
        thread.join();
        PrintStream out = new PrintStream(System.out, true, StandardCharsets.UTF_8);
        out.printf(
                Locale.ROOT,
                "%.0f Hz, %d s: stamp off by at most p50 %.1f us, p99 %.1f us, p99.9 %.1f us, max %.0f us;"
                        + " %d readings, %d missed%n",
                rateHz,
                seconds,
                halves.quantileNs(0.5) / 1e3,
                halves.quantileNs(0.99) / 1e3,
                halves.quantileNs(0.999) / 1e3,
                halves.maxNs() / 1e3,
                halves.samples(),
                sampler.missed());
    }
}
