package org.holdtrace.acquire;

import java.util.List;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.atomic.AtomicLong;
import java.util.concurrent.atomic.AtomicReference;
import org.holdtrace.adc.AdcException;
import org.holdtrace.adc.Converter;
import org.holdtrace.adc.SteadyClock;
import org.holdtrace.quantity.Require;

/**
 * Reads the converter on absolute deadlines and puts what it read into a ring, each sample with the time of its reading.
 * A late sample does not make the later ones late; what could not be read in time is left out and counted, never made up
 * and never read in a burst. A reading that fails gives no sample; reading goes on, and the converter is set up anew, at
 * longer and longer intervals, until it answers. The loop allocates nothing.
 *
 * <p>One thread runs it; the other methods may be called from any.
 */
public final class Sampler implements Runnable {
    /** Lowest and highest rate, Hz: a stroke lasts 0.1 s or more, and common converters give 860 conversions a second. */
    public static final double LOWEST_RATE_HZ = 50;

    public static final double HIGHEST_RATE_HZ = 860;

    /** How often the lateness of samples is summed up, ns. */
    public static final long SUMMARY_NS = 10_000_000_000L;

    private static final int FAILURES_BEFORE_RESTART = 3;
    private static final long FIRST_RESTART_AFTER_NS = 20_000_000;
    private static final long RESTARTS_AT_MOST_NS = 1_000_000_000;
    private static final long RESTS = Long.MIN_VALUE;

    /**
     * An input to be read.
     *
     * @param channel number it has in the ring, 0 to 127
     * @param input number it has at the converter
     * @param everyTicks read at every so many-th tick, 1 or more
     */
    public record Input(int channel, int input, int everyTicks) {
        public Input {
            if (channel < 0 || channel > 127 || input < 0 || everyTicks < 1) {
                throw new IllegalArgumentException(
                        "no such input: channel " + channel + ", input " + input + ", every " + everyTicks + " ticks");
            }
        }
    }

    /** A question whether the converter still follows. */
    private record Probe(int input, int count, CompletableFuture<Boolean> answer) {}

    private final AtomicReference<Probe> probeWanted = new AtomicReference<>();
    private final Converter converter;
    private final Input[] inputs;
    private final SampleRing ring;
    private final double periodNs;
    private final SteadyClock clock;
    private volatile boolean running = true;
    private volatile boolean restartWanted;
    private final AtomicLong missed = new AtomicLong();
    private final AtomicLong failedReads = new AtomicLong();
    private final AtomicLong overruns = new AtomicLong();
    private final AtomicLong restarts = new AtomicLong();
    private volatile boolean failing;
    private volatile long atItSinceNs = RESTS;
    private volatile String lastFailure = "";

    private LatenessHistogram lateness = new LatenessHistogram();
    private LatenessHistogram spare = new LatenessHistogram();
    private final AtomicReference<LatenessHistogram> summed = new AtomicReference<>();
    private final AtomicReference<LatenessHistogram> returned = new AtomicReference<>();
    private long nextSummaryNs;
    private long startNs;

    private int failuresInRow;
    private long nextRestartNs;
    private long restartPauseNs = FIRST_RESTART_AFTER_NS;

    /**
     * @param inputs what is read at each tick, in this order; the first is read at every tick
     * @param rateHz ticks a second, {@value #LOWEST_RATE_HZ} to {@value #HIGHEST_RATE_HZ}
     */
    public Sampler(Converter converter, List<Input> inputs, SampleRing ring, double rateHz, SteadyClock clock) {
        this.converter = converter;
        this.inputs = inputs.toArray(new Input[0]);
        this.ring = ring;
        this.clock = clock;
        periodNs = 1e9 / Require.within(rateHz, LOWEST_RATE_HZ, HIGHEST_RATE_HZ, "sampling rate", "Hz");
        if (inputs.isEmpty() || inputs.get(0).everyTicks != 1) {
            throw new IllegalArgumentException("the first input must be there and be read at every tick");
        }
    }

    @Override
    public void run() {
        atItSinceNs = clock.nanoTime();
        restart(clock.nanoTime());
        restartPauseNs = FIRST_RESTART_AFTER_NS;
        startNs = clock.nanoTime();
        nextSummaryNs = startNs + SUMMARY_NS;
        for (long tick = 0; running && !Thread.currentThread().isInterrupted(); tick++) {
            tick = sample(tick);
        }
    }

    /**
     * Waits for a tick and reads. A method of its own: the machine compiles a method soon after the start, and a loop that
     * goes round so slowly not for minutes.
     *
     * @return the last tick that is past when all is read
     */
    private long sample(long tick) {
        long dueNs = startNs + (long) (tick * periodNs);
        atItSinceNs = RESTS;
        await(dueNs);
        if (Thread.currentThread().isInterrupted()) {
            return tick;
        }
        atItSinceNs = clock.nanoTime();
        if (restartWanted) {
            restartWanted = false;
            restart(clock.nanoTime());
        }
        probe();
        boolean away = false;
        for (int i = 0; i < inputs.length; i++) {
            if (tick % inputs[i].everyTicks == 0) {
                read(inputs[i], i == 0, dueNs);
                away |= inputs[i].everyTicks > 1;
            }
        }
        if (away) {
            comeBack();
        }
        long nowNs = clock.nanoTime();
        if (failing && failuresInRow >= FAILURES_BEFORE_RESTART && nowNs - nextRestartNs >= 0) {
            restart(nowNs);
            nowNs = clock.nanoTime();
        }
        long past = tick;
        if (nowNs - dueNs > 2 * periodNs) {
            past = (long) ((nowNs - startNs) / periodNs);
            lateness.miss(past - tick);
            missed.addAndGet(past - tick);
            // What is past is past: reading it now would give the present once more.
        }
        if (nowNs - nextSummaryNs >= 0) {
            sumUp(nowNs);
        }
        return past;
    }

    private void await(long dueNs) {
        for (long left = dueNs - clock.nanoTime(); left > 0; left = dueNs - clock.nanoTime()) {
            clock.waitNs(left);
            if (Thread.currentThread().isInterrupted()) {
                return;
            }
        }
    }

    private void read(Input input, boolean first, long dueNs) {
        long beforeNs = clock.nanoTime();
        int count;
        try {
            count = converter.read(input.input);
        } catch (AdcException | RuntimeException e) {
            failed(e, first);
            return;
        }
        long afterNs = clock.nanoTime();
        if (failing) {
            failing = false;
            failuresInRow = 0;
            restartPauseNs = FIRST_RESTART_AFTER_NS;
        }
        long timeNs = beforeNs + ((afterNs - beforeNs) >> 1);
        if (!ring.put(input.channel, timeNs, count)) {
            overruns.incrementAndGet();
        }
        if (first) {
            lateness.record(timeNs - dueNs);
        }
    }

    /**
     * Has a converter with one conversion at a time back at the first input now, in the pause before the next tick: at
     * the tick it would wait for conversions, and nobody could say when its count was taken.
     */
    private void comeBack() {
        try {
            converter.read(inputs[0].input);
        } catch (AdcException | RuntimeException e) {
            failed(e, false);
        }
    }

    /** A converter is for one thread: what another wants to know of it is looked up here. */
    private void probe() {
        Probe wanted = probeWanted.getAndSet(null);
        if (wanted == null) {
            return;
        }
        boolean follows = true;
        try {
            follows = converter.follows(wanted.input, wanted.count);
        } catch (AdcException | RuntimeException e) {
            failed(e, false);
        }
        wanted.answer.complete(follows);
    }

    private void failed(Exception e, boolean first) {
        if (first) {
            lateness.miss(1);
            missed.incrementAndGet();
        }
        if (!failing) {
            failuresInRow = 0;
            nextRestartNs = clock.nanoTime() + restartPauseNs;
        }
        failuresInRow++;
        // A plain sentence for a bus that fails; a fault of our own is named by its class.
        String text = e instanceof AdcException ? e.getMessage() : e.toString();
        lastFailure = text == null ? e.toString() : text;
        failedReads.incrementAndGet();
        failing = true;
    }

    private void restart(long nowNs) {
        restarts.incrementAndGet();
        try {
            converter.restart();
        } catch (AdcException | RuntimeException e) {
            String text = e.getMessage();
            lastFailure = text == null ? e.toString() : text;
        }
        restartPauseNs = Math.min(RESTARTS_AT_MOST_NS, 2 * restartPauseNs);
        nextRestartNs = nowNs + restartPauseNs;
    }

    private void sumUp(long nowNs) {
        nextSummaryNs = nowNs + SUMMARY_NS;
        if (spare == null) {
            spare = returned.getAndSet(null);
        }
        if (spare != null && summed.compareAndSet(null, lateness)) {
            lateness = spare;
            spare = null;
        }
    }

    /** Takes the lateness of the last ten seconds or so; null where there is nothing new. Give it back when done. */
    public LatenessHistogram takeSummary() {
        return summed.getAndSet(null);
    }

    /** Gives a histogram back for further use. */
    public void giveBack(LatenessHistogram histogram) {
        histogram.clear();
        returned.set(histogram);
    }

    /** Ends the loop within a tick. */
    public void stop() {
        running = false;
    }

    /** Has the converter set up anew before the next reading: its answers make no sense though they come. */
    public void requestRestart() {
        restartWanted = true;
    }

    /**
     * Asks whether the converter still follows what it is asked, see {@link Converter#follows}.
     *
     * @return the answer, some conversions later
     */
    public CompletableFuture<Boolean> probe(int input, int count) {
        CompletableFuture<Boolean> answer = new CompletableFuture<>();
        probeWanted.set(new Probe(input, count, answer));
        return answer;
    }

    /** Whether the last reading failed. */
    public boolean isFailing() {
        return failing;
    }

    /**
     * How long the readings of one tick have taken by now, ns; 0 between ticks. A bus whose wire is held down keeps the
     * kernel, and so the reading, for a second before it fails.
     */
    public long atItNs() {
        long since = atItSinceNs;
        return since == RESTS ? 0 : Math.max(0, clock.nanoTime() - since);
    }

    /** How many samples of the first input that should have come did not, so far. */
    public long missed() {
        return missed.get();
    }

    /** How many readings have failed so far. */
    public long failedReads() {
        return failedReads.get();
    }

    /** How often the converter was set up anew. */
    public long restarts() {
        return restarts.get();
    }

    /** How many samples were lost because nobody took them out of the ring. */
    public long overruns() {
        return overruns.get();
    }

    /** Why the last reading that failed did so; empty where none has. */
    public String lastFailure() {
        return lastFailure;
    }
}
