package org.holdtrace.adc.model;

import static org.holdtrace.adc.Ads1115Register.COMPARATOR_OFF;
import static org.holdtrace.adc.Ads1115Register.CONFIG;
import static org.holdtrace.adc.Ads1115Register.CONFIG_AT_POWER_ON;
import static org.holdtrace.adc.Ads1115Register.CONVERSION;
import static org.holdtrace.adc.Ads1115Register.HIGH_THRESHOLD;
import static org.holdtrace.adc.Ads1115Register.LOW_THRESHOLD;
import static org.holdtrace.adc.Ads1115Register.SINGLE;
import static org.holdtrace.adc.Ads1115Register.START_OR_IDLE;

import java.util.Arrays;
import org.holdtrace.adc.Ads1115Range;
import org.holdtrace.adc.Ads1115Rate;
import org.holdtrace.adc.SteadyClock;
import org.holdtrace.quantity.Require;

/**
 * An ADS1115 as seen from its bus: pointer register, four registers, multiplexer, gain, data rate with an oscillator that
 * is off, continuous and single conversions, conversion-ready output. Conversions are made when the bus next looks, at
 * the instants they would have been made. A conversion has the voltage of its middle. Where one transfer configures the
 * chip anew while it converts continuously, the running conversion is finished by the old configuration (data sheet
 * SBAS444). The comparator is modelled as conversion-ready output only.
 *
 * <p>Faults on demand: transfers without acknowledge, a wire pulled out, conversions that never end, a supply that
 * fails. Safe for use from several threads.
 */
public final class Ads1115Model {
    private static final int SUPPLY_PINS = 4;
    private static final long WAKE_NS = 25_000;
    private static final int[][] DIFFERENCES = {{0, 1}, {0, 3}, {1, 3}, {2, 3}};

    private final SteadyClock clock;
    private final VoltageSource source;
    private final int[] registers = new int[4];
    private int pointer;
    private double rateError;

    private boolean converting;
    /** End of the conversion under way, and the configuration it is made by. */
    private long endNs;

    private int activeConfig;
    private int nackNext;
    private boolean unplugged;
    private boolean hung;
    private long edges;
    private long transfers;
    private long conversions;

    /** A chip that has just got power, with {@code source} at its pins. */
    public Ads1115Model(SteadyClock clock, VoltageSource source) {
        this.clock = clock;
        this.source = source;
        powerOn();
    }

    private void powerOn() {
        registers[CONVERSION] = 0;
        registers[CONFIG] = CONFIG_AT_POWER_ON;
        registers[LOW_THRESHOLD] = 0x8000;
        registers[HIGH_THRESHOLD] = 0x7FFF;
        pointer = CONVERSION;
        converting = false;
    }

    /** The supply fails for a moment: all registers as at power on, nothing converts. */
    public synchronized void brownOut() {
        powerOn();
    }

    /** The next {@code count} transfers are not acknowledged. */
    public synchronized void refuse(int count) {
        nackNext = count;
    }

    /** Pulls the bus wire out, or puts it back; the chip keeps its supply. */
    public synchronized void unplug(boolean out) {
        unplugged = out;
    }

    /** Conversions under way never end, or end again from now on. */
    public synchronized void hang(boolean on) {
        convertUntil(clock.nanoTime());
        hung = on;
        if (converting) {
            endNs = Math.max(endNs, clock.nanoTime());
        }
    }

    /**
     * Sets how far the oscillator is off.
     *
     * @param error relative error of the oscillator: 0.1 is as fast as the data sheet allows, −0.1 as slow
     */
    public synchronized void rateError(double error) {
        rateError = Require.within(error, -Ads1115Rate.TOLERANCE, Ads1115Rate.TOLERANCE, "error of the rate", "");
    }

    /** Transfers so far, refused ones too. */
    public synchronized long transfers() {
        return transfers;
    }

    /** Conversions whose result the bus could have seen so far. */
    public synchronized long conversions() {
        convertUntil(clock.nanoTime());
        return conversions;
    }

    /** A write transfer: the pointer, then the word's two bytes where there are any. */
    public synchronized void write(byte[] bytes, int length) throws NoAnswerException {
        begin();
        if (length == 0) {
            return;
        }
        pointer = bytes[0] & 3;
        if (length >= 3) {
            int word = (bytes[1] & 0xFF) << 8 | (bytes[2] & 0xFF);
            if (pointer == CONFIG) {
                configure(word);
            } else if (pointer != CONVERSION) {
                registers[pointer] = word;
            }
        }
    }

    /** A read transfer of the register pointed at: its two bytes, then ones, which is what an idle bus shows. */
    public synchronized void read(byte[] into, int length) throws NoAnswerException {
        begin();
        Arrays.fill(into, 0, length, (byte) 0xFF);
        int word = pointer == CONFIG ? configNow() : registers[pointer];
        if (length > 0) {
            into[0] = (byte) (word >> 8);
        }
        if (length > 1) {
            into[1] = (byte) word;
        }
    }

    private void begin() throws NoAnswerException {
        transfers++;
        if (unplugged || nackNext > 0) {
            nackNext = Math.max(0, nackNext - 1);
            throw new NoAnswerException();
        }
        convertUntil(clock.nanoTime());
    }

    private int configNow() {
        return (registers[CONFIG] & ~START_OR_IDLE) | (converting ? 0 : START_OR_IDLE);
    }

    private void configure(int word) {
        long now = clock.nanoTime();
        registers[CONFIG] = word & ~START_OR_IDLE;
        boolean single = (word & SINGLE) != 0;
        if (converting && (activeConfig & SINGLE) == 0 && !single) {
            // The running conversion is finished as it was begun.
            return;
        }
        if (!single || (word & START_OR_IDLE) != 0) {
            converting = true;
            activeConfig = registers[CONFIG];
            endNs = now + WAKE_NS + conversionNs(activeConfig);
        } else if ((activeConfig & SINGLE) == 0) {
            // From continuous to power-down.
            converting = false;
        }
    }

    private long conversionNs(int config) {
        return Math.round(1e9 / (Ads1115Rate.ofCode(config >> 5 & 7).hertz() * (1 + rateError)));
    }

    private void convertUntil(long nowNs) {
        while (converting && !hung && endNs - nowNs <= 0) {
            int config = activeConfig;
            long period = conversionNs(config);
            boolean goesOn = (config & SINGLE) == 0 && (registers[CONFIG] & SINGLE) == 0;
            if (goesOn && config == registers[CONFIG]) {
                // Nobody sees but the last of them.
                long unseen = (nowNs - endNs) / period;
                endNs += unseen * period;
                conversions += unseen;
                edges += isReadySet() ? unseen : 0;
            }
            registers[CONVERSION] = code(config, endNs - period / 2) & 0xFFFF;
            conversions++;
            edges += isReadySet() ? 1 : 0;
            if (goesOn) {
                activeConfig = registers[CONFIG];
                endNs += conversionNs(activeConfig);
            } else {
                converting = false;
            }
        }
    }

    private int code(int config, long timeNs) {
        int mux = config >> 12 & 7;
        double volts = mux >= SUPPLY_PINS
                ? source.volts(mux - SUPPLY_PINS, timeNs)
                : source.volts(DIFFERENCES[mux][0], timeNs) - source.volts(DIFFERENCES[mux][1], timeNs);
        double code = volts / Ads1115Range.ofCode(config >> 9 & 7).voltsPerCount();
        return (int) Math.max(-32_768, Math.min(32_767, Math.rint(code)));
    }

    private boolean isReadySet() {
        return (registers[HIGH_THRESHOLD] & 0x8000) != 0
                && (registers[LOW_THRESHOLD] & 0x8000) == 0
                && (registers[CONFIG] & COMPARATOR_OFF) != COMPARATOR_OFF;
    }

    /** Pulses at the ready pin so far. */
    synchronized long edges() {
        convertUntil(clock.nanoTime());
        return edges;
    }

    /** When the next pulse comes, ns; {@link Long#MAX_VALUE} where none is to come. */
    synchronized long nextEdgeNs() {
        convertUntil(clock.nanoTime());
        return converting && !hung && isReadySet() ? endNs : Long.MAX_VALUE;
    }
}
