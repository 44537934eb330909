package org.holdtrace.trace;

import java.util.List;

/**
 * Finds, with the whole trace at hand, the let-off of a valve that was opened so gently that {@link BleedFinder}, which
 * compares the fall with what it was a moment before, took it for a leak.
 *
 * <p>Whatever its law, a leak passes less as pressure falls, and a line, with the air in it, gives way more: pressure
 * falls ever more slowly. So the fall is timed through steps of pressure, each a part of what is left. From some step on
 * a let-off takes every step far faster than one before it and ends near nothing. Nothing depends on sampling rate or
 * pressure range.
 */
final class LetOffFinder {
    /** A step is this part of the pressure left. */
    private static final double STEP_PART = 0.05;

    /** Steps of fewer standard deviations of a sample are crossed by noise. */
    private static final double STEP_SIGMAS = 20;

    /** No drift of temperature and no leak that grows makes the fall this many times as fast as it was. */
    private static final double FASTER = 4;

    /** So it goes on until no more than this part of the pressure at its beginning is left. */
    private static final double UNTIL_PART = 0.5;

    /** No more than this part of it is left in the end. */
    private static final double LEFT_PART = 0.25;

    /** What takes longer, as a part of the hold before, to go down to {@link #UNTIL_PART} is not a valve being opened. */
    private static final double LONGEST_PART = 0.5;

    /** At rest: no more than this part of the fall is to come. */
    private static final double CALM_PART = 0.012;

    private final SampleWindow window;
    private final double zeroPa;
    private final double noisePa;

    private LetOffFinder(SampleWindow window, double zeroPa, double noisePa) {
        this.window = window;
        this.zeroPa = zeroPa;
        this.noisePa = noisePa;
    }

    /** Marks the let-offs that {@code found}, tests of {@code trace} in order of time, do not have yet. */
    static void complete(Trace trace, List<FoundTest> found) {
        for (int i = 0; i < found.size(); i++) {
            FoundTest test = found.get(i);
            if (Double.isNaN(test.bleedFromS)) {
                // The detector's noise is that of means of some samples: spikes are looked for by a sample's own.
                double noisePa = RestLevels.of(trace, test, null, test.endS).noisePa();
                LetOffFinder finder = new LetOffFinder(new SampleWindow(trace, noisePa), test.zeroPa, noisePa);
                if (finder.mark(test) && i + 1 < found.size()) {
                    FoundTest next = found.get(i + 1);
                    next.restFromS = Math.min(test.endS, next.startS(0));
                }
            }
        }
    }

    private boolean mark(FoundTest test) {
        double pumpedS = test.lastStrokeEndS();
        double endS = test.endS;
        double lastPa = window.mean(Math.max(pumpedS, endS - 0.2), endS) - zeroPa;
        double levelPa = window.mean(pumpedS, Math.min(endS, pumpedS + 0.2)) - zeroPa;
        double slowest = Double.POSITIVE_INFINITY;
        double timeS = pumpedS;
        while (levelPa * STEP_PART > STEP_SIGMAS * noisePa && lastPa < LEFT_PART * levelPa) {
            double nextPa = (1 - STEP_PART) * levelPa;
            double nextS = window.firstBelow(zeroPa + nextPa, timeS, endS);
            double speed = (levelPa - nextPa) / (nextS - timeS);
            if (speed > FASTER * slowest && speeds(timeS, levelPa, FASTER * slowest, pumpedS, endS)) {
                test.bleedFromS = timeS;
                test.bleedToS = window.firstBelow(zeroPa + lastPa + CALM_PART * (levelPa - lastPa), timeS, endS);
                test.endS = test.bleedToS;
                return true;
            }
            slowest = Math.min(slowest, speed);
            levelPa = nextPa;
            timeS = nextS;
        }
        return false;
    }

    /** Whether every step from {@code fromS} and {@code fromPa} on is faster than {@code slowest}, Pa/s. */
    private boolean speeds(double fromS, double fromPa, double slowest, double pumpedS, double endS) {
        double timeS = fromS;
        double levelPa = fromPa;
        while (levelPa > UNTIL_PART * fromPa) {
            double nextPa = (1 - STEP_PART) * levelPa;
            double nextS = window.firstBelow(zeroPa + nextPa, timeS, endS);
            if (!(levelPa - nextPa > slowest * (nextS - timeS))) {
                return false;
            }
            levelPa = nextPa;
            timeS = nextS;
        }
        return timeS < endS && timeS - fromS < LONGEST_PART * (fromS - pumpedS);
    }
}
