package org.holdtrace.firmware;

import java.nio.file.Path;
import java.util.List;
import org.holdtrace.acquire.Sampler;
import org.holdtrace.adc.Converter;
import org.holdtrace.adc.SteadyClock;
import org.holdtrace.panel.Panel;
import org.holdtrace.record.Recorder;
import org.holdtrace.session.Channel;

/**
 * What the firmware is put together from.
 *
 * @param instrument its name, as it stands in sessions
 * @param simulated whether no oil is under pressure
 * @param converter what reads the inputs
 * @param lines the inputs in order; the first is the pressure under test
 * @param rateHz samples a second of the first
 * @param clock what sampling goes by
 * @param panel button, lamps and beeper
 * @param folder where sessions are kept
 * @param room when the disk is too full
 * @param habits when sessions begin and end by themselves
 */
record Equipment(
        String instrument,
        boolean simulated,
        Converter converter,
        List<Line> lines,
        double rateHz,
        SteadyClock clock,
        Panel panel,
        Path folder,
        Recorder.Room room,
        Habits habits) {
    Equipment {
        lines = List.copyOf(lines);
    }

    /**
     * An input.
     *
     * @param channel what it measures; its id is its place among the inputs
     * @param sampled how it is read
     * @param check what looks after it
     */
    record Line(Channel channel, Sampler.Input sampled, InputCheck check) {}

    /**
     * When sessions begin and end by themselves.
     *
     * @param beginOnRise whether one begins when pressure first rises
     * @param restEndsNs the line at rest for so long after a hold test ends one
     * @param falseStartEndsNs one that began by itself ends when so long no hold test came
     */
    record Habits(boolean beginOnRise, long restEndsNs, long falseStartEndsNs) {
        static final Habits USUAL = new Habits(true, 60_000_000_000L, 120_000_000_000L);
    }
}
