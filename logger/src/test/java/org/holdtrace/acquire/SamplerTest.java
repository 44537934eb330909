package org.holdtrace.acquire;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.sun.management.ThreadMXBean;
import java.lang.management.ManagementFactory;
import java.util.ArrayList;
import java.util.List;
import java.util.function.IntConsumer;
import org.holdtrace.adc.AdcException;
import org.holdtrace.adc.Converter;
import org.holdtrace.adc.SteadyClock;
import org.junit.jupiter.api.Test;

class SamplerTest {
    private static final long MS = 1_000_000;

    /** Time that passes only by waiting, and as a test says. */
    private static final class FakeClock implements SteadyClock {
        private long nowNs = 5_000_000_000L;
        private long lateNs;

        @Override
        public long nanoTime() {
            return nowNs;
        }

        @Override
        public void waitNs(long durationNs) {
            nowNs += Math.max(0, durationNs) + lateNs;
        }
    }

    /** A converter that counts its readings and does at each what a test says. */
    private static class FakeConverter implements Converter {
        private final IntConsumer atReading;
        private int readings;
        private int restarts;
        private boolean broken;

        FakeConverter(IntConsumer atReading) {
            this.atReading = atReading;
        }

        @Override
        public String name() {
            return "a converter of the test";
        }

        @Override
        public int inputs() {
            return 4;
        }

        @Override
        public int read(int input) throws AdcException {
            atReading.accept(readings++);
            if (broken) {
                throw new AdcException("no acknowledge");
            }
            return readings;
        }

        @Override
        public boolean follows(int input, int count) {
            return count != 99;
        }

        @Override
        public double voltsPerCount(int input) {
            return 1e-4;
        }

        @Override
        public int lowestCount(int input) {
            return -32768;
        }

        @Override
        public int highestCount(int input) {
            return 32767;
        }

        @Override
        public void restart() {
            restarts++;
        }

        @Override
        public void close() {}
    }

    private record Sample(int channel, long timeNs, int count) {}

    private static List<Sample> drain(SampleRing ring) {
        List<Sample> samples = new ArrayList<>();
        ring.drain((c, t, n) -> samples.add(new Sample(c, t, n)), Integer.MAX_VALUE);
        return samples;
    }

    private static Sampler.Input every(int channel, int ticks) {
        return new Sampler.Input(channel, channel, ticks);
    }

    private Sampler sampler;

    @Test
    void samplesStayOnTheGridHoweverLateEachOneIs() {
        FakeClock clock = new FakeClock();
        clock.lateNs = 100_000; // each wait ends 0.1 ms late; relative waiting would drift by 25 ms a second
        SampleRing ring = new SampleRing(4096);
        FakeConverter converter = new FakeConverter(n -> {
            if (n == 2499) {
                sampler.stop();
            }
        });
        sampler = new Sampler(converter, List.of(every(0, 1)), ring, 250, clock);
        sampler.run();
        List<Sample> samples = drain(ring);
        assertEquals(2500, samples.size());
        for (int i = 1; i < samples.size(); i++) {
            long off = samples.get(i).timeNs() - samples.get(0).timeNs() - 4L * i * MS;
            assertTrue(Math.abs(off) <= 100_000, "sample " + i + " is off by " + off + " ns");
        }
        assertEquals(1, converter.restarts);
    }

    @Test
    void whatIsPastIsLeftOutAndCountedAndNeverReadInABurst() {
        FakeClock clock = new FakeClock();
        SampleRing ring = new SampleRing(4096);
        FakeConverter converter = new FakeConverter(n -> {
            if (n == 50) {
                clock.nowNs += 41 * MS; // the machine stalls: ten ticks pass
            }
            if (n == 1000) {
                sampler.stop();
            }
        });
        sampler = new Sampler(converter, List.of(every(0, 1)), ring, 250, clock);
        sampler.run();
        List<Sample> samples = drain(ring);
        int gaps = 0;
        for (int i = 1; i < samples.size(); i++) {
            long step = samples.get(i).timeNs() - samples.get(i - 1).timeNs();
            // Never two readings closer than half a period, apart from the one whose own stall shifts its time.
            assertTrue(step >= 2 * MS, "step of " + step + " ns at " + i);
            gaps += step > 6 * MS ? 1 : 0;
        }
        assertTrue(gaps >= 1 && gaps <= 2);
        assertEquals(10, sampler.missed());
    }

    @Test
    void aReadingThatHangsIsSeenFromOutsideAndOneThatWaitsForItsTurnIsNot() {
        FakeClock clock = new FakeClock();
        SampleRing ring = new SampleRing(4096);
        List<Long> atItNs = new ArrayList<>();
        FakeConverter converter = new FakeConverter(n -> {
            clock.nowNs += n == 10 ? 700 * MS : 0; // held by the kernel
            atItNs.add(sampler.atItNs());
            if (n == 20) {
                sampler.stop();
            }
        });
        sampler = new Sampler(converter, List.of(every(0, 1)), ring, 250, clock);
        assertEquals(0, sampler.atItNs());
        sampler.run();
        assertTrue(atItNs.get(10) >= 700 * MS, atItNs.toString());
        assertTrue(atItNs.get(9) < 4 * MS && atItNs.get(20) < 4 * MS, atItNs.toString());
    }

    @Test
    void aReadingThatFailsGivesNoSampleAndReadingRecovers() {
        FakeClock clock = new FakeClock();
        SampleRing ring = new SampleRing(8192);
        FakeConverter[] converter = new FakeConverter[1];
        converter[0] = new FakeConverter(n -> {
            converter[0].broken = n >= 500 && n < 1000;
            if (n == 700) {
                assertTrue(sampler.isFailing());
                assertEquals("no acknowledge", sampler.lastFailure());
            }
            if (n == 1500) {
                sampler.stop();
            }
        });
        sampler = new Sampler(converter[0], List.of(every(0, 1)), ring, 250, clock);
        sampler.run();
        List<Sample> samples = drain(ring);
        assertEquals(1501 - 500, samples.size());
        assertFalse(sampler.isFailing());
        assertEquals(500, sampler.failedReads());
        // Two seconds of failure: set up anew after 20 ms, 40 ms, … and then once a second, not at every reading.
        assertTrue(converter[0].restarts >= 5 && converter[0].restarts <= 10, "restarts " + converter[0].restarts);
        assertTrue(samples.stream().noneMatch(s -> s.count() > 500 && s.count() <= 1000));
    }

    @Test
    void slowInputsAreReadAtTheirTicksOnly() {
        FakeClock clock = new FakeClock();
        SampleRing ring = new SampleRing(8192);
        FakeConverter converter = new FakeConverter(n -> {
            if (n >= 1000) {
                sampler.stop();
            }
        });
        sampler = new Sampler(converter, List.of(every(0, 1), every(2, 50)), ring, 100, clock);
        sampler.run();
        List<Sample> samples = drain(ring);
        long slow = samples.stream().filter(s -> s.channel() == 2).count();
        long fast = samples.stream().filter(s -> s.channel() == 0).count();
        assertTrue(Math.abs(fast - slow * 50) <= 50, fast + " and " + slow);
    }

    @Test
    void theLoopAllocatesNothing() throws InterruptedException {
        ThreadMXBean threads = (ThreadMXBean) ManagementFactory.getThreadMXBean();
        FakeClock clock = new FakeClock();
        SampleRing ring = new SampleRing(1 << 20);
        long[] allocated = new long[2];
        FakeConverter converter = new FakeConverter(n -> {
            if (n == 50_000) {
                allocated[0] = threads.getCurrentThreadAllocatedBytes();
            }
            if (n == 450_000) {
                allocated[1] = threads.getCurrentThreadAllocatedBytes();
                sampler.stop();
            }
        });
        sampler = new Sampler(converter, List.of(every(0, 1)), ring, 860, clock);
        Thread thread = new Thread(sampler);
        thread.start();
        thread.join();
        // 400 000 samples; the measurement itself may cost some.
        assertTrue(allocated[1] - allocated[0] < 10_000, "allocated " + (allocated[1] - allocated[0]) + " B");
    }

    @Test
    void latenessIsSummedUpEveryTenSeconds() {
        FakeClock clock = new FakeClock();
        clock.lateNs = 200_000;
        SampleRing ring = new SampleRing(1 << 14);
        FakeConverter converter = new FakeConverter(n -> {
            if (n == 2600) {
                sampler.stop();
            }
        });
        sampler = new Sampler(converter, List.of(every(0, 1)), ring, 250, clock);
        sampler.run();
        LatenessHistogram summary = sampler.takeSummary();
        assertTrue(Math.abs(summary.samples() - 2500) <= 2);
        assertEquals(0, summary.missed());
        assertEquals(200_000.0, (double) summary.quantileNs(0.5), 0.07 * 200_000);
    }

    @Test
    void ratesAndInputsThatCannotBeAreRefused() {
        FakeConverter converter = new FakeConverter(n -> {});
        SampleRing ring = new SampleRing(16);
        FakeClock clock = new FakeClock();
        for (double rate : new double[] {49, 861, Double.NaN}) {
            assertThrows(
                    IllegalArgumentException.class,
                    () -> new Sampler(converter, List.of(every(0, 1)), ring, rate, clock));
        }
        assertThrows(
                IllegalArgumentException.class, () -> new Sampler(converter, List.of(every(0, 2)), ring, 250, clock));
        assertThrows(IllegalArgumentException.class, () -> new Sampler.Input(-1, 0, 1));
    }
}
