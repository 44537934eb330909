package org.holdtrace.adc;

import java.util.Arrays;
import java.util.List;
import java.util.Locale;

/**
 * Driver of the ADS1115 class of converters: four inputs against ground, 16 bit, up to 860 conversions a second.
 *
 * <p>{@link Mode#CONTINUOUS}: the chip converts without end and a read takes its latest result, one short transaction, at
 * most one conversion old. Reading another input switches it over and throws away what was begun before, three
 * conversions in all: good for one fast input and slow ones beside it. {@link Mode#SINGLE}: each read starts a conversion
 * of its own and waits for it: good for several fast inputs.
 *
 * <p>A chip whose supply fails for a moment forgets its set-up, stops converting and answers 0 for ever. So the set-up is
 * read back after each fault, where a code of 0 appears, and ten times a second; where it is gone no count is returned,
 * but an error, until {@link #restart}. It must be called once before the first read. Not for use from several threads at
 * once.
 */
public final class Ads1115 implements Converter {
    private static final int INPUTS = 4;
    private static final int LOWEST = -32_768;
    private static final int HIGHEST = 32_767;

    /** 100 ms: short against the second in which a fault must be named, long enough to cost the bus nothing. */
    private static final long VERIFY_EVERY_NS = 100_000_000;

    /** 25 µs to wake for a single conversion (data sheet SBAS444). */
    private static final long WAKE_NS = 25_000;

    /** Two codes that differ by less could be noise on one voltage: then a probe proves nothing. */
    private static final int TOLD_APART_COUNTS = 16;

    /** So many waits for an edge in vain, then the pin is not waited for but now and then. */
    private static final int EDGES_MISSED = 20;

    private static final long PIN_TRIED_AGAIN_NS = 1_000_000_000;

    private static final int NONE = -1;

    /** How conversions are started. */
    public enum Mode {
        CONTINUOUS,
        SINGLE
    }

    /**
     * How the chip is set up.
     *
     * @param mode how conversions are started
     * @param rate conversions a second; in continuous mode well above the sampling rate, see {@link Ads1115Rate#above}
     * @param ranges full scale of each of the four inputs
     * @param firstInput what is converted after the start
     */
    public record Setup(Mode mode, Ads1115Rate rate, List<Ads1115Range> ranges, int firstInput) {
        public Setup {
            ranges = List.copyOf(ranges);
            if (ranges.size() != INPUTS || firstInput < 0 || firstInput >= INPUTS) {
                throw new IllegalArgumentException(
                        "an ADS1115 has inputs 0 to 3, each with a range; was given " + ranges + " and " + firstInput);
            }
        }

        /** The same range for all inputs. */
        public static Setup of(Mode mode, Ads1115Rate rate, Ads1115Range range) {
            return new Setup(mode, rate, List.of(range, range, range, range), 0);
        }
    }

    private final RegisterBus bus;
    private final SteadyClock clock;
    private final Setup setup;
    /** Null where none is wired. */
    private final ReadyPin readyPin;

    private final int[] configs = new int[INPUTS];
    private boolean isSetUp;
    private boolean isDoubtful;
    private boolean isPointed;
    private int selected = NONE;
    private int countBefore;
    private long verifiedAtNs;
    private long conversionNs;
    private int edgesMissed;
    private boolean pinRests;
    private long pinTriedAgainNs;

    /** A chip on {@code bus} whose ready pin is not wired. */
    public Ads1115(RegisterBus bus, Setup setup, SteadyClock clock) {
        this(bus, setup, clock, null);
    }

    /** A chip whose ready pin is wired to {@code readyPin}, or null. Nothing is sent before {@link #restart}. */
    public Ads1115(RegisterBus bus, Setup setup, SteadyClock clock, ReadyPin readyPin) {
        this.bus = bus;
        this.setup = setup;
        this.clock = clock;
        this.readyPin = readyPin;
        boolean single = setup.mode() == Mode.SINGLE;
        for (int input = 0; input < INPUTS; input++) {
            configs[input] =
                    Ads1115Register.config(input, setup.ranges().get(input), setup.rate(), single, readyPin != null);
        }
        conversionNs = 1_000_000_000L / setup.rate().hertz();
    }

    @Override
    public String name() {
        return "ADS1115 at " + bus.name();
    }

    @Override
    public int inputs() {
        return INPUTS;
    }

    @Override
    public double voltsPerCount(int input) {
        return setup.ranges().get(input).voltsPerCount();
    }

    @Override
    public int lowestCount(int input) {
        return LOWEST;
    }

    @Override
    public int highestCount(int input) {
        return HIGHEST;
    }

    /** Whether the ready pin is wired and edges arrive from it; reading goes on without. */
    public boolean hearsReadyPin() {
        return readyPin != null && isSetUp && edgesMissed == 0;
    }

    @Override
    public void restart() throws AdcException {
        isSetUp = false;
        if (readyPin != null) {
            // Before conversions start: an ALERT pin half set up is a comparator that pulls when it likes.
            writeAndReadBack(Ads1115Register.LOW_THRESHOLD, Ads1115Register.LOW_FOR_READY);
            writeAndReadBack(Ads1115Register.HIGH_THRESHOLD, Ads1115Register.HIGH_FOR_READY);
        }
        int input = selected == NONE ? setup.firstInput() : selected;
        writeAndReadBack(Ads1115Register.CONFIG, configs[input]);
        clock.waitNs(WAKE_NS + 2 * setup.rate().longestNs());
        selected = input;
        isPointed = false;
        isDoubtful = false;
        countBefore = 0;
        verifiedAtNs = clock.nanoTime();
        isSetUp = true;
    }

    private void writeAndReadBack(int register, int word) throws AdcException {
        bus.writeWord(register, word);
        int back = withoutState(register, bus.readWord(register));
        if (back != withoutState(register, word)) {
            throw new AdcException(name() + ": wrote " + hex(word) + " into register " + register + ", read back "
                    + hex(back) + "; " + (back == 0 || back == 0x7FFF || back == 0xFFFF ? DEAD_WIRE : OTHER_CHIP));
        }
    }

    private static final String DEAD_WIRE = "check supply, ground and the two bus wires";
    private static final String OTHER_CHIP = "another kind of chip may answer at this address";

    /** The top bit of the configuration tells what the chip is doing now, not how it is set. */
    private static int withoutState(int register, int word) {
        return register == Ads1115Register.CONFIG ? word & ~Ads1115Register.START_OR_IDLE : word;
    }

    @Override
    public int read(int input) throws AdcException {
        if (!isSetUp) {
            throw new AdcException(name() + " is not set up");
        }
        try {
            return setup.mode() == Mode.SINGLE ? single(configs[input]) : latest(input);
        } catch (AdcException e) {
            isDoubtful = true;
            isPointed = false;
            throw e;
        }
    }

    private int latest(int input) throws AdcException {
        if (isDoubtful || clock.nanoTime() - verifiedAtNs >= VERIFY_EVERY_NS) {
            verify();
        }
        if (input != selected) {
            select(input, configs[input]);
        }
        awaitReady();
        if (!isPointed) {
            bus.point(Ads1115Register.CONVERSION);
            isPointed = true;
        }
        int count = (short) bus.readLatest();
        if ((count == 0 && countBefore != 0) || looksLikeAnotherRegister(count)) {
            verify();
            count = (short) bus.readWord(Ads1115Register.CONVERSION);
            isPointed = true;
        }
        countBefore = count;
        return count;
    }

    /**
     * 0 is what a chip answers that has lost its set-up. The others are what its other registers hold: some other program
     * may have moved the chip's pointer, and its answer must not pass for a voltage.
     */
    private boolean looksLikeAnotherRegister(int count) {
        return count == LOWEST
                || count == HIGHEST
                || withoutState(Ads1115Register.CONFIG, count & 0xFFFF) == configs[selected];
    }

    private void verify() throws AdcException {
        isPointed = false;
        checkConfig(bus.readWord(Ads1115Register.CONFIG), selected == NONE ? NONE : configs[selected]);
        isDoubtful = false;
        verifiedAtNs = clock.nanoTime();
    }

    private void checkConfig(int found, int expected) throws AdcException {
        if (expected != NONE
                && withoutState(Ads1115Register.CONFIG, found) != withoutState(Ads1115Register.CONFIG, expected)) {
            isSetUp = false;
            throw new AdcException(name() + " lost its set-up: configuration reads " + hex(found) + " instead of "
                    + hex(expected)
                    + (found == Ads1115Register.CONFIG_AT_POWER_ON ? ", as after power comes on" : "")
                    + "; check its supply");
        }
    }

    /** Switches over; what was being converted before is waited for and thrown away. */
    private void select(int input, int config) throws AdcException {
        selected = NONE;
        isPointed = false;
        bus.writeWord(Ads1115Register.CONFIG, config);
        clock.waitNs(2 * setup.rate().longestNs());
        selected = input;
    }

    private void awaitReady() {
        if (readyPin == null) {
            return;
        }
        if (pinRests && clock.nanoTime() < pinTriedAgainNs) {
            return;
        }
        if (readyPin.awaitEdge(setup.rate().longestNs())) {
            edgesMissed = 0;
            pinRests = false;
        } else if (++edgesMissed >= EDGES_MISSED) {
            // Waiting in vain each time would slow sampling down; reading goes on by the clock.
            readyPin.restart();
            edgesMissed = EDGES_MISSED - 1;
            pinRests = true;
            pinTriedAgainNs = clock.nanoTime() + PIN_TRIED_AGAIN_NS;
        }
    }

    private int single(int config) throws AdcException {
        long startNs = clock.nanoTime();
        long limitNs = WAKE_NS + 2 * setup.rate().longestNs() + 5_000_000;
        bus.writeWord(Ads1115Register.CONFIG, config | Ads1115Register.START_OR_IDLE);
        clock.waitNs(WAKE_NS + conversionNs);
        for (int polls = 0; ; polls++) {
            int found = bus.readWord(Ads1115Register.CONFIG);
            checkConfig(found, config);
            if ((found & Ads1115Register.START_OR_IDLE) != 0) {
                learn(polls);
                isDoubtful = false;
                return (short) bus.readWord(Ads1115Register.CONVERSION);
            }
            if (clock.nanoTime() - startNs > limitNs) {
                throw new AdcException(name() + ": a conversion had not ended after "
                        + String.format(Locale.ROOT, "%.1f ms", limitNs / 1e6));
            }
            clock.waitNs(conversionNs / 20);
        }
    }

    /** How long this chip's oscillator takes, so that one look is mostly enough: within its tolerance. */
    private void learn(int polls) {
        long nominal = 1_000_000_000L / setup.rate().hertz();
        long longest = setup.rate().longestNs();
        conversionNs = polls == 0
                ? Math.max(conversionNs - conversionNs / 200, 2 * nominal - longest)
                : Math.min(conversionNs + conversionNs / 50, longest);
    }

    @Override
    public boolean follows(int input, int count) throws AdcException {
        if (!isSetUp) {
            throw new AdcException(name() + " is not set up");
        }
        Ads1115Range usual = setup.ranges().get(input);
        Ads1115Range other = usual == Ads1115Range.V6_144 ? Ads1115Range.V4_096 : Ads1115Range.V6_144;
        double expected = Math.max(LOWEST, Math.min(HIGHEST, count * usual.fullScaleVolts() / other.fullScaleVolts()));
        if (Math.abs(expected - count) < TOLD_APART_COUNTS) {
            return true;
        }
        boolean single = setup.mode() == Mode.SINGLE;
        int config = Ads1115Register.config(input, other, setup.rate(), single, readyPin != null);
        try {
            if (single) {
                return single(config) != count;
            }
            select(input, config);
            checkConfig(bus.readWord(Ads1115Register.CONFIG), config);
            return (short) bus.readWord(Ads1115Register.CONVERSION) != count;
        } catch (AdcException e) {
            isDoubtful = true;
            throw e;
        } finally {
            // The next read switches back.
            selected = NONE;
            isPointed = false;
        }
    }

    private static String hex(int word) {
        return String.format(Locale.ROOT, "0x%04X", word);
    }

    @Override
    public void close() {
        if (readyPin != null) {
            readyPin.close();
        }
        bus.close();
    }

    @Override
    public String toString() {
        return name() + " " + Arrays.toString(configs);
    }
}
