package org.holdtrace.judge;

import java.util.List;
import java.util.OptionalDouble;
import org.holdtrace.session.TestSetup;

/**
 * A hold test worth doing.
 *
 * @param test how to set it up; its file is empty
 * @param reach what it can implicate
 * @param bits information it is expected to give about which elements are over their limits, bits
 * @param worthPerSecond that, with what it settles for good, for the time it costs, less where others would do without it,
 *     bits per second: what tests are ordered by
 * @param probabilityPass probability that it holds: that all it implicates and can judge are within their limits
 * @param pressurePa pressure to pump up to, Pa
 * @param pressureFrom what decided that pressure, in words
 * @param pumpedM3 oil to pump in once the line is full, m³
 * @param strokes pump strokes that is, where the stroke is known
 * @param holdS time to hold, s
 * @param wholeS time the whole test takes, access included, s
 * @param limitM3PerS smallest limit among what it implicates, m³/s
 * @param ifHolds what it would tell if it holds
 * @param ifLeaks what it would tell if it leaks
 * @param cautions what is special about it
 * @param plan the setup a logger takes
 */
public record PlannedTest(
        CaseTest test,
        Reach reach,
        double bits,
        double worthPerSecond,
        double probabilityPass,
        double pressurePa,
        String pressureFrom,
        double pumpedM3,
        OptionalDouble strokes,
        double holdS,
        double wholeS,
        double limitM3PerS,
        String ifHolds,
        String ifLeaks,
        List<String> cautions,
        TestSetup plan) {
    public PlannedTest {
        cautions = List.copyOf(cautions);
    }

    /** The same, worth so many times as much. */
    PlannedTest worth(double factor) {
        return new PlannedTest(
                test,
                reach,
                bits,
                factor * worthPerSecond,
                probabilityPass,
                pressurePa,
                pressureFrom,
                pumpedM3,
                strokes,
                holdS,
                wholeS,
                limitM3PerS,
                ifHolds,
                ifLeaks,
                cautions,
                plan);
    }
}
