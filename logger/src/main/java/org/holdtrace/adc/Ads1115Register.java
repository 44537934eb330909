package org.holdtrace.adc;

/**
 * Registers and fields of the ADS1115 class of converters (16 bit, ΔΣ, two wires).
 *
 * <p>Configuration register, reset value 0x8583:
 *
 * <pre>
 * 15    OS    write 1: start one conversion; read 1: idle, 0: converting
 * 14-12 MUX   0 A0-A1, 1 A0-A3, 2 A1-A3, 3 A2-A3, 4..7 A0..A3 against ground
 * 11-9  PGA   full scale, see {@link Ads1115Range}
 * 8     MODE  0 continuous, 1 single conversions
 * 7-5   DR    conversions a second, see {@link Ads1115Rate}
 * 4-2         comparator mode, polarity, latch
 * 1-0   QUE   3: comparator off; anything else with thresholds set so: conversion ready at the ALERT pin
 * </pre>
 *
 * Source: data sheet SBAS444, tables of the registers; the codes are those of reference value EL-02.
 */
public final class Ads1115Register {
    public static final int CONVERSION = 0;
    public static final int CONFIG = 1;
    public static final int LOW_THRESHOLD = 2;
    public static final int HIGH_THRESHOLD = 3;

    /** What {@link #CONFIG} holds after power comes on. */
    public static final int CONFIG_AT_POWER_ON = 0x8583;

    public static final int START_OR_IDLE = 0x8000;
    public static final int SINGLE = 0x0100;
    public static final int COMPARATOR_OFF = 0x0003;

    /** With these two the ALERT pin tells of finished conversions: high threshold's top bit 1, low threshold's 0. */
    public static final int HIGH_FOR_READY = 0x8000;

    public static final int LOW_FOR_READY = 0x0000;

    static final int MUX_SHIFT = 12;
    static final int GAIN_SHIFT = 9;
    static final int RATE_SHIFT = 5;
    /** MUX code of A0 against ground; the others follow. */
    static final int SINGLE_ENDED = 4;

    private Ads1115Register() {}

    /** The configuration that converts {@code input} against ground. */
    static int config(int input, Ads1115Range range, Ads1115Rate rate, boolean single, boolean ready) {
        return (single ? SINGLE : 0)
                | (SINGLE_ENDED + input) << MUX_SHIFT
                | range.code() << GAIN_SHIFT
                | rate.code() << RATE_SHIFT
                | (ready ? 0 : COMPARATOR_OFF);
    }
}
