package org.holdtrace.desk.classroom;

import java.awt.geom.Path2D;
import java.util.ArrayList;
import java.util.List;
import org.holdtrace.trace.Phase;
import org.holdtrace.trace.PhaseDetector;
import org.holdtrace.trace.PushCount;
import org.holdtrace.trace.Stroke;
import org.holdtrace.trace.Trace;

/**
 * One test line on the screen: its newest samples, and what the detector makes of them. Fed on one thread and drawn on
 * another; all methods lock.
 */
final class Lane {
    private static final int MOST_MARKS = 256;

    /** A phase that began at {@code sinceS}. */
    record Mark(Phase phase, double sinceS) {}

    /**
     * What is to be seen now.
     *
     * @param timeS time of the newest sample, s; NaN where none came
     * @param pressurePa the newest pressure, Pa, zero error included; NaN where none came
     * @param phase what the line is doing
     * @param sinceS since when, s
     * @param strokes strokes of the test at hand
     */
    record Shown(double timeS, double pressurePa, Phase phase, double sinceS, int strokes) {
        boolean hasSamples() {
            return !Double.isNaN(timeS);
        }
    }

    private final Strip strip = new Strip();
    private final Samples samples = new Samples();
    private final List<Mark> marks = new ArrayList<>();
    private String name;
    private Verdict verdict;
    private PhaseDetector detector;
    private boolean plateau;
    private double plateauFromS;
    private PushCount pushes = new PushCount();
    private double timeS = Double.NaN;
    private double pressurePa = Double.NaN;
    private double intervalS;
    private double stepPa;
    private boolean silent;

    Lane(String name, Verdict verdict) {
        this.name = name;
        this.verdict = verdict;
        clear();
    }

    /** What stands above it. */
    synchronized String name() {
        return name;
    }

    synchronized void setName(String next) {
        name = next;
    }

    /** How its verdict is come by. */
    synchronized Verdict verdict() {
        return verdict;
    }

    synchronized void setVerdict(Verdict next) {
        verdict = next;
    }

    /** By what readings change at the least, Pa, where that is known: heeded from the next beginning on. */
    synchronized void setStep(double pa) {
        if (pa != stepPa) {
            stepPa = pa;
            if (Double.isNaN(timeS)) {
                clear();
            }
        }
    }

    /** Says that nothing comes any more, until something does: what was measured last is not what is so now. */
    synchronized void fallSilent() {
        silent = true;
    }

    /** Whether what comes here ought to come and does not. */
    synchronized boolean isSilent() {
        return silent;
    }

    /** Forgets all samples: another recording, or time that began anew. */
    synchronized void clear() {
        strip.clear();
        samples.clear();
        marks.clear();
        detector = new PhaseDetector(new Detected(), stepPa);
        plateau = false;
        pushes = new PushCount();
        timeS = Double.NaN;
        pressurePa = Double.NaN;
        intervalS = 0;
    }

    /** Takes {@code count} samples, {@code atS} in s and pressures in Pa; time that goes back begins anew. */
    synchronized void accept(double[] atS, double[] pressures, int count) {
        silent = false;
        for (int i = 0; i < count; i++) {
            if (atS[i] < timeS) {
                clear();
            }
            if (!Double.isFinite(pressures[i])) {
                continue;
            }
            if (!Double.isNaN(timeS)) {
                intervalS += 0.02 * (atS[i] - timeS - intervalS);
            }
            timeS = atS[i];
            pressurePa = pressures[i];
            strip.accept(timeS, pressurePa);
            samples.add(timeS, pressurePa);
            pushes.accept(timeS, pressurePa);
            detector.accept(timeS, pressurePa);
        }
    }

    synchronized Shown shown() {
        boolean flat = plateau && detector.phase() == Phase.PUMP_UP;
        return new Shown(
                timeS,
                pressurePa,
                flat ? Phase.PLATEAU : detector.phase(),
                flat ? plateauFromS : detector.phaseSinceS(),
                pushes.count());
    }

    /** The phases seen since the samples began, oldest first. */
    synchronized List<Mark> marks() {
        return List.copyOf(marks);
    }

    /** The highest pressure of the last {@code windowS} seconds, Pa; NaN where there is none. */
    synchronized double highestPa(double windowS) {
        return strip.highestPa(windowS);
    }

    /** The line through the last {@code windowS} seconds. */
    synchronized Path2D path(double windowS, int columns, Strip.Scale scale) {
        return strip.path(windowS, columns, Math.max(0.5, 5 * intervalS), scale);
    }

    /** All samples that are still there. */
    synchronized Trace trace() {
        return samples.trace();
    }

    private void mark(Phase phase, double sinceS) {
        if (marks.size() == MOST_MARKS) {
            marks.remove(0);
        }
        marks.add(new Mark(phase, sinceS));
    }

    private final class Detected implements PhaseDetector.Listener {
        @Override
        public void phaseChanged(Phase phase, double sinceS) {
            if (phase == Phase.REST) {
                pushes.begin();
            }
            plateau = false;
            mark(phase, sinceS);
        }

        @Override
        public void strokeEnded(Stroke stroke, double startPa, double endPa) {
            pushes.ended(stroke, startPa, endPa, detector.zeroPa(), detector.noisePa());
        }

        @Override
        public void plateauBegun(double sinceS) {
            plateau = true;
            plateauFromS = sinceS;
            mark(Phase.PLATEAU, sinceS);
        }

        @Override
        public void plateauEnded() {
            plateau = false;
            // It never was one: its mark goes.
            if (!marks.isEmpty() && marks.get(marks.size() - 1).phase() == Phase.PLATEAU) {
                marks.remove(marks.size() - 1);
            }
        }
    }
}
