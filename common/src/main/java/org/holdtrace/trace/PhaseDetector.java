package org.holdtrace.trace;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;

/**
 * Follows a hold test sample by sample and tells what the test line is doing. Causal: the same samples give the same
 * answer live and afterwards; a change becomes known a little after it happened and is reported with the time it
 * happened. {@link TraceSegmenter} sharpens the boundaries once the whole trace is there.
 *
 * <p>Nothing is tied to a sampling rate or a pressure range: limits follow the noise seen, the rise and slope of the
 * strokes, and how fast a hand can move. Accepting a sample allocates nothing; memory grows with strokes only. Not safe
 * for use by several threads.
 */
public final class PhaseDetector {
    /** Hears of changes; all times in s on the trace's clock, all earlier than the sample that made them known. */
    public interface Listener {
        /** The line is in {@code phase} since {@code sinceS}. */
        default void phaseChanged(Phase phase, double sinceS) {}

        /** A push that raises pressure began at {@code startS}. */
        default void strokeStarted(double startS) {}

        /** A push has ended; the reading was {@code startPa} where it began and {@code endPa} where it ended. */
        default void strokeEnded(Stroke stroke, double startPa, double endPa) {}

        /** Pumping goes on without raising pressure since {@code sinceS}. */
        default void plateauBegun(double sinceS) {}

        /** Pressure rises again: what was taken for a plateau was none, or the leak has become smaller. */
        default void plateauEnded() {}

        /** A hold test is over: pressure has been let off, or the next pump-up begins. */
        default void holdTestFinished(HoldTest test) {}
    }

    /** Pauses up to this length belong to a pump-up, s: breath taken, a grip changed, oil topped up. */
    static final double PAUSE_S = 20;
    /** The hand has stopped for now when this many stroke periods have passed. */
    private static final double STOPPED_PERIODS = 2.5;

    private static final double STOPPED_LEAST_S = 1.5;
    private static final double STOPPED_MOST_S = 6;
    /** A reading below one atmosphere and some may be zero error; only what is above can begin pumped up. */
    private static final double ZERO_ERROR_PA = 2e5;

    private static final double GAP_S = 0.1;
    private static final double LONG_GAP_S = 2.5;
    private static final double LET_OFF_PART = 0.2;

    private static final double NEW_PART_OF_PRESSURE = 0.01;
    private static final double RESUMED_PART_OF_RISE = 0.15;

    private final Listener listener;
    private final BlockFilter blocks = new BlockFilter();
    private final RunningMean mean = new RunningMean();
    private final NoiseMeter noise;
    private final StrokeFinder finder = new StrokeFinder();
    private final BleedFinder bleed = new BleedFinder();
    private final SettlingWatch settling = new SettlingWatch();
    private final PlateauWatch plateau = new PlateauWatch();
    private final List<FoundTest> tests = new ArrayList<>();

    private Phase phase = Phase.REST;
    private double sinceS = Double.NaN;
    private FoundTest test;
    private double gapS;
    private double firstS = Double.NaN;
    private double restSum;
    private int restCount;
    private double zeroPa;
    private boolean zeroKnown;
    private double peakPa = Double.NEGATIVE_INFINITY;
    private double strokePeriodS = 1;
    private Phase before = Phase.HOLD;

    /** A detector that tells nobody; ask {@link #phase}. */
    public PhaseDetector() {
        this(new Listener() {});
    }

    /** A detector that tells {@code listener}, from within {@link #accept} and {@link #finish}. */
    public PhaseDetector(Listener listener) {
        this(listener, 0);
    }

    /**
     * The same for readings of a converter whose resolution is known. Readings that stand still on one code tell nothing of
     * it, and the first change of one step would pass for a stroke.
     *
     * @param stepPa by what the reading changes at the least, Pa; 0 where it is not known or does not show
     */
    public PhaseDetector(Listener listener, double stepPa) {
        this.listener = listener;
        noise = new NoiseMeter(stepPa);
    }

    /**
     * Takes the next sample. One whose stamp does not advance, or that is no number, is left out.
     *
     * @param timeS its time, s, on any clock that does not go back
     * @param pressurePa the transducer's reading, Pa, zero error included
     */
    public void accept(double timeS, double pressurePa) {
        if (blocks.accept(timeS, pressurePa)) {
            acceptBlock();
        }
    }

    /** What the line is doing, as far as is known. A stroke that may yet prove none counts as what was before it. */
    public Phase phase() {
        return phase;
    }

    /** Since when, s; NaN before the first samples. */
    public double phaseSinceS() {
        return sinceS;
    }

    /** Standard deviation of block means of some 20 ms, Pa; 0 until known. */
    public double noisePa() {
        return noise.sigmaPa();
    }

    /** The reading at rest before the hold test at hand, or before the last one, Pa; 0 until known. */
    public double zeroPa() {
        return zeroPa;
    }

    /** Ends the trace and returns its hold tests, the last one perhaps cut off. */
    public List<HoldTest> finish() {
        List<HoldTest> found = new ArrayList<>();
        for (FoundTest each : finishFound()) {
            found.add(toHoldTest(each, found.size() + 1));
        }
        return found;
    }

    /** As {@link #finish}, before it is made presentable. */
    List<FoundTest> finishFound() {
        if (blocks.flush()) {
            acceptBlock();
        }
        if (finder.interrupt(blocks.lastS(), finder.endPa())) {
            strokeEnded();
        }
        if (test != null) {
            if (phase == Phase.BLEED_OFF) {
                test.bleedToS = blocks.lastS();
            }
            closeTest(blocks.lastS());
        }
        return tests;
    }

    private void acceptBlock() {
        if (Double.isNaN(firstS)) {
            firstS = blocks.timeS();
            sinceS = firstS;
        }
        if (!blocks.learned()) {
            return;
        }
        noise.addStep(blocks.stepPa());
        if (blocks.gapS() > GAP_S && blocks.gapS() < Double.POSITIVE_INFINITY) {
            gapS = Math.max(gapS, blocks.gapS());
            noise.breakSequence();
            mean.clear();
        }
        if (!mean.accept(blocks.timeS(), blocks.meanPa())) {
            return;
        }
        double timeS = mean.timeS();
        double meanPa = mean.meanPa();
        // A rise across a short gap is a stroke of which the middle is missing; across a long one nobody knows.
        if (gapS > LONG_GAP_S && finder.interrupt(timeS, meanPa)) {
            strokeEnded();
        }
        gapS = 0;
        noise.add(blocks.meanPa(), meanPa, phase == Phase.REST, finder.calm(noise.sigmaPa()));
        if (!noise.ready()) {
            return;
        }
        switch (finder.accept(timeS, meanPa, noise.sigmaPa(), leastRisePa())) {
            case START -> strokeStarted();
            case END -> strokeEnded();
            case NOTHING -> {
                if (!finder.pushing()) {
                    still(timeS, meanPa);
                }
            }
        }
    }

    /** In rhythm the smallest rise is a stroke; once pumping has stopped, only one like those before. */
    private double leastRisePa() {
        if (phase != Phase.SETTLING && phase != Phase.HOLD) {
            return 0;
        }
        // Strokes into a relief raise next to nothing; a new pump-up after a long hold must be more than such a blip.
        boolean late = blocks.lastS() - test.lastStrokeEndS() > PAUSE_S;
        double least = late ? NEW_PART_OF_PRESSURE * (peakPa - zeroPa) : 0;
        return Math.max(least, RESUMED_PART_OF_RISE * finder.typicalRisePa());
    }

    private void strokeStarted() {
        listener.strokeStarted(finder.startS());
    }

    private void strokeEnded() {
        double startS = finder.startS();
        if (test != null && isUnderWay(startS)) {
            beginStrokes();
        } else if (test != null && !sameTest(startS)) {
            closeTest(startS);
        }
        if (test == null) {
            openTest();
            test.restFromS = Double.isNaN(sinceS) ? startS : Math.min(sinceS, startS);
            test.restToS = startS;
        }
        if (phase != Phase.PUMP_UP) {
            test.holdFromS = Double.NaN;
            test.bleedFromS = Double.NaN;
            change(Phase.PUMP_UP, test.strokes() == 0 ? startS : test.startS(0));
        }
        if (test.strokes() > 0) {
            double period = startS - test.startS(test.strokes() - 1);
            strokePeriodS += 0.3 * (Math.min(period, STOPPED_MOST_S) - strokePeriodS);
        }
        double startPa = finder.startPa();
        test.addStroke(startS, finder.endS(), startPa, finder.endPa());
        peakPa = Math.max(peakPa, finder.endPa());
        listener.strokeEnded(new Stroke(startS, finder.endS()), startPa, finder.endPa());
        double flat = plateau.accept(startS, 0.5 * (startPa + finder.endPa()), finder.endPa() - startPa);
        if (Double.isNaN(flat)) {
            if (!Double.isNaN(test.plateauFromS)) {
                listener.plateauEnded();
            }
            test.plateauFromS = Double.NaN;
        } else if (Double.isNaN(test.plateauFromS)) {
            test.plateauFromS = flat;
            listener.plateauBegun(flat);
        }
        bleed.begin(finder.endS(), finder.endPa());
        settling.begin(finder.endS());
    }

    /** Whether the trace began amid the pump-up: what looked like a hold was the pause before the first stroke seen whole. */
    private boolean isUnderWay(double startS) {
        return test.strokes() == 0 && phase != Phase.BLEED_OFF && startS - test.pumpedUpS < PAUSE_S;
    }

    /** Whether a stroke that began at {@code startS} goes on with the pump-up that is there. */
    private boolean sameTest(double startS) {
        double pause = startS - test.lastStrokeEndS();
        if (phase == Phase.BLEED_OFF) {
            return pause < PAUSE_S && finder.startPa() - zeroPa > 0.5 * (bleed.fromPa() - zeroPa);
        }
        return test.strokes() > 0 && pause < PAUSE_S;
    }

    /** No push is on. */
    private void still(double timeS, double meanPa) {
        if (test == null) {
            rest(timeS, meanPa);
            return;
        }
        double sigma = noise.sigmaPa();
        if (phase == Phase.BLEED_OFF) {
            if (bleed.atRest(timeS, meanPa, sigma)) {
                bled(meanPa);
            }
            return;
        }
        double quiet = timeS - test.lastStrokeEndS();
        if (phase == Phase.PUMP_UP && quiet > stoppedS()) {
            change(Phase.SETTLING, test.lastStrokeEndS());
        }
        if (phase == Phase.SETTLING && settling.accept(timeS, meanPa, sigma)) {
            test.holdFromS = settling.calmS();
            change(Phase.HOLD, settling.calmS());
        } else if (phase == Phase.PUMP_UP) {
            settling.accept(timeS, meanPa, sigma);
        }
        double least = Math.max(15 * sigma, 0.005 * (peakPa - zeroPa));
        if (bleed.opened(timeS, meanPa, sigma, zeroPa, least) && quiet > Math.min(stoppedS(), 1.5 * strokePeriodS)) {
            before = phase;
            test.bleedFromS = bleed.fromS();
            change(Phase.BLEED_OFF, bleed.fromS());
        }
    }

    private double stoppedS() {
        return Math.max(STOPPED_LEAST_S, Math.min(STOPPED_MOST_S, STOPPED_PERIODS * strokePeriodS));
    }

    private void rest(double timeS, double meanPa) {
        boolean first = !zeroKnown && restCount == 0;
        restSum += meanPa;
        restCount++;
        if (first && tests.isEmpty() && meanPa > Math.max(ZERO_ERROR_PA, 100 * noise.sigmaPa())) {
            openTest();
            test.pumpedUpS = firstS;
            peakPa = meanPa;
            bleed.begin(timeS, meanPa);
            settling.begin(firstS);
            change(Phase.SETTLING, firstS);
        }
    }

    private void openTest() {
        if (restCount > 1) {
            double mean = restSum / restCount;
            // What is left after an unfinished let-off is no zero.
            if (!zeroKnown || mean < zeroPa + LET_OFF_PART * Math.max(0, peakPa - zeroPa)) {
                zeroPa = mean;
                zeroKnown = true;
            }
        }
        if (tests.isEmpty() && restCount > 0) {
            noise.restIsOver();
        }
        restSum = 0;
        restCount = 0;
        test = new FoundTest();
        test.zeroPa = zeroPa;
        beginStrokes();
    }

    private void beginStrokes() {
        peakPa = Double.NEGATIVE_INFINITY;
        test.noisePa = noise.sigmaPa();
        plateau.begin();
        strokePeriodS = 1;
    }

    private void bled(double meanPa) {
        double drop = bleed.fromPa() - meanPa;
        if (drop < LET_OFF_PART * (bleed.fromPa() - zeroPa)) {
            test.bleedFromS = Double.NaN;
            change(before, before == Phase.HOLD ? test.holdFromS : test.lastStrokeEndS());
            return;
        }
        test.bleedToS = bleed.calmS();
        closeTest(bleed.calmS());
        finder.forgetRises();
    }

    private void closeTest(double endS) {
        test.endS = endS;
        if (!Double.isNaN(test.bleedFromS) && Double.isNaN(test.bleedToS)) {
            test.bleedToS = endS;
        }
        tests.add(test);
        listener.holdTestFinished(toHoldTest(test, tests.size()));
        test = null;
        change(Phase.REST, endS);
    }

    private void change(Phase to, double since) {
        phase = to;
        sinceS = since;
        listener.phaseChanged(to, since);
    }

    private static HoldTest toHoldTest(FoundTest found, int number) {
        List<PhaseSpan> spans = new ArrayList<>();
        List<Stroke> strokes = new ArrayList<>();
        for (int i = 0; i < found.strokes(); i++) {
            strokes.add(new Stroke(found.startS(i), found.endS(i)));
        }
        if (found.restToS > found.restFromS) {
            spans.add(new PhaseSpan(Phase.REST, found.restFromS, found.restToS));
        }
        double pumped = found.lastStrokeEndS();
        if (!strokes.isEmpty()) {
            spans.add(new PhaseSpan(Phase.PUMP_UP, found.startS(0), pumped));
            if (!Double.isNaN(found.plateauFromS)) {
                spans.add(new PhaseSpan(Phase.PLATEAU, found.plateauFromS, pumped));
            }
        }
        double end = Double.isNaN(found.bleedFromS) ? found.endS : found.bleedFromS;
        double hold = Math.max(pumped, Math.min(end, Double.isNaN(found.holdFromS) ? end : found.holdFromS));
        end = Math.max(end, hold);
        if (hold > pumped) {
            spans.add(new PhaseSpan(Phase.SETTLING, pumped, hold));
        }
        if (end > hold) {
            spans.add(new PhaseSpan(Phase.HOLD, hold, end));
        }
        if (!Double.isNaN(found.bleedFromS)) {
            spans.add(new PhaseSpan(Phase.BLEED_OFF, end, Math.max(end, found.bleedToS)));
        }
        return new HoldTest(
                number,
                spans,
                strokes,
                new HoldTest.RestLevel(found.zeroPa, found.noisePa, found.restToS > found.restFromS),
                OptionalDouble.empty());
    }
}
