package org.holdtrace.rig;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import org.holdtrace.trace.Phase;
import org.holdtrace.trace.PhaseSpan;

/** Notes taken while a planned hold test is carried out, from which its truth is written. */
final class TestRecord {
    final TestPlan plan;
    final double restFromS;
    final List<Truth.Stroke> strokes = new ArrayList<>();
    boolean targetHit;
    boolean reliefOpened;
    double peakPa;
    double lastEndS;
    double holdToS;
    double bleedToS;
    double holdEndPa;
    double undissolvedM3;
    double bledBeforeM3;

    private final List<double[]> marks = new ArrayList<>();
    private double integralPaS;
    private double[] endMark = {0, 0};
    private double heatLeftK;
    private double settledS = Double.NaN;
    private double leakedM3;

    TestRecord(TestPlan plan, double restFromS) {
        this.plan = plan;
        this.restFromS = restFromS;
    }

    void beginStroke(double nowS) {
        marks.add(new double[] {nowS, integralPaS});
    }

    void pump(double fromS, double fromPa, double toS, double toPa) {
        integralPaS += 0.5 * (fromPa + toPa) * (toS - fromS);
    }

    void beginHold(LiveRig live) {
        holdToS = lastEndS + plan.holdS();
        bleedToS = holdToS;
        endMark = new double[] {live.timeS(), integralPaS};
        heatLeftK = live.oilTemperatureK() - live.ambientTemperatureK();
        undissolvedM3 = live.plant().undissolvedM3();
        leakedM3 = live.plant().leakedM3();
    }

    void hold(LiveRig live) {
        if (Double.isNaN(settledS) && live.oilTemperatureK() - live.ambientTemperatureK() <= 0.1 * heatLeftK) {
            settledS = live.timeS();
        }
    }

    void endHold(LiveRig live) {
        holdEndPa = live.pressurePa();
        leakedM3 = live.plant().leakedM3() - leakedM3;
        bledBeforeM3 = live.bledM3();
        bleedToS = holdToS + plan.bleedS();
    }

    /** The truth of the test, once all oil has been caught. Times are taken relative to {@code originS}. */
    Truth.Test close(int number, double bledM3, double originS) {
        List<PhaseSpan> phases = new ArrayList<>();
        double risesS = strokes.stream()
                .filter(stroke -> stroke.endPa() > 0)
                .findFirst()
                .map(Truth.Stroke::startS)
                .orElse(lastEndS);
        add(phases, Phase.REST, restFromS - originS, strokes.get(0).startS() - originS);
        add(phases, Phase.PUMP_UP, risesS - originS, lastEndS - originS);
        int plateau = plateauFrom();
        OptionalDouble plateauMeanPa = OptionalDouble.empty();
        if (plateau >= 0) {
            add(phases, Phase.PLATEAU, strokes.get(plateau).startS() - originS, lastEndS - originS);
            double[] mark = marks.get(plateau);
            plateauMeanPa = OptionalDouble.of((endMark[1] - mark[1]) / (endMark[0] - mark[0]));
        }
        double latestS = lastEndS + (holdToS - lastEndS) / 3;
        double settledToS = lastEndS;
        if (heatLeftK > 1e-6) {
            settledToS = Double.isNaN(settledS) ? latestS : Math.min(latestS, settledS);
        }
        add(phases, Phase.SETTLING, lastEndS - originS, settledToS - originS);
        add(phases, Phase.HOLD, settledToS - originS, holdToS - originS);
        add(phases, Phase.BLEED_OFF, holdToS - originS, bleedToS - originS);
        List<Truth.Stroke> shifted = strokes.stream()
                .map(s -> new Truth.Stroke(
                        s.startS() - originS, s.endS() - originS, s.volumeM3(), s.cutShort(), s.endPa()))
                .toList();
        return new Truth.Test(
                number,
                phases,
                shifted,
                targetHit,
                reliefOpened,
                peakPa,
                holdEndPa,
                plateauMeanPa,
                leakedM3,
                bledM3 - bledBeforeM3,
                undissolvedM3);
    }

    /** Index of a plateau's first stroke, the one after a peak within 1 % of the last quarter's mean; -1 for none. */
    private int plateauFrom() {
        int n = strokes.size();
        if (targetHit || n < 6) {
            return -1;
        }
        int quarter = Math.max(3, n / 4);
        double level = strokes.subList(n - quarter, n).stream()
                .mapToDouble(Truth.Stroke::endPa)
                .average()
                .orElse(0);
        for (int i = 1; i <= n - 3; i++) {
            if (level > 0 && strokes.get(i - 1).endPa() >= 0.99 * level) {
                return i;
            }
        }
        return -1;
    }

    /** Phases before the recording began are left out, one it began in is cut off. */
    private static void add(List<PhaseSpan> phases, Phase phase, double fromS, double toS) {
        if (toS > 0 && toS > fromS) {
            phases.add(new PhaseSpan(phase, Math.max(0, fromS), toS));
        }
    }
}
