package org.holdtrace.accuracy;

import static org.holdtrace.accuracy.Units.BAR;
import static org.holdtrace.accuracy.Units.CM3;
import static org.holdtrace.accuracy.Units.CM3_PER_MIN;

import java.util.Locale;
import java.util.Optional;
import java.util.stream.Collectors;
import org.holdtrace.leak.Law;
import org.holdtrace.quantity.Quantity;
import org.holdtrace.rig.Rig;
import org.holdtrace.rig.Truth;

/** One row a simulated test, for whoever wants to know why. Flows in cm³/min, pressures in bar. */
final class ScoreCsv {
    private ScoreCsv() {}

    static String header() {
        StringBuilder out =
                new StringBuilder("index,family,inputs,truth,estimate,lower,upper,covered,errorInHalfWidths,"
                        + "atBar,peakBar,holdEndBar,lawTruth,lawSaid");
        for (Law law : Law.values()) {
            out.append(",weight ").append(law.label());
        }
        return out.append(",unavoidablePercent,halfWidthPercent,verdict,wrong,limit,strokes,fewestStrokes,mostStrokes,"
                        + "complianceErrorPercent,complianceCovered,naive,naiveLower,naiveUpper,volumeCm3,airPercent,"
                        + "strokeCm3,rateHz,noiseBar,driftKPerH,oilTemperatureChannel,pumpedUp,tests,samples,simulateS,"
                        + "analyseS,failure,budget")
                .toString();
    }

    static String row(Score score) {
        SimulatedCase test = score.test();
        StringBuilder out = new StringBuilder();
        out.append(test.index());
        text(out, test.family().label());
        text(out, test.inputs().label());
        Truth.Test truth = test.test();
        Optional<Score.Answer> answer = score.answer();
        number(out, answer.map(a -> a.truth() / CM3_PER_MIN));
        number(out, answer.map(a -> a.estimate() / CM3_PER_MIN));
        number(out, answer.map(a -> a.lower() / CM3_PER_MIN));
        number(out, answer.map(a -> a.upper() / CM3_PER_MIN));
        text(out, answer.map(a -> a.covered() ? "yes" : "NO").orElse(""));
        number(out, answer.map(a -> (a.estimate() - a.truth()) / a.halfWidth()));
        number(out, answer.map(a -> a.atPa() / BAR));
        number(out, Optional.of(truth.peakPa() / BAR));
        number(out, Optional.of(truth.holdEndPa() / BAR));
        text(out, score.trueLaw().label());
        text(out, answer.map(a -> a.law().label()).orElse(""));
        for (Law law : Law.values()) {
            number(out, answer.map(a -> a.weights().getOrDefault(law, 0.0)));
        }
        number(out, answer.map(a -> 196 * a.unavoidableRelative()));
        number(out, answer.map(a -> 100 * a.halfWidth() / a.truth()));
        text(out, answer.flatMap(Score.Answer::verdict).map(v -> v.label()).orElse(""));
        text(out, answer.map(a -> a.wrong() ? "WRONG" : "").orElse(""));
        number(out, test.setup().limitM3PerS().map(q -> q.value() / CM3_PER_MIN));
        number(out, answer.map(a -> (double) a.strokes()));
        number(out, answer.map(a -> (double) a.fewestStrokes()));
        number(out, answer.map(a -> (double) a.mostStrokes()));
        number(out, answer.map(a -> 100 * a.complianceError()));
        text(out, answer.map(a -> a.complianceCovered() ? "yes" : "NO").orElse(""));
        number(out, score.naive().map(a -> a.m3PerS() / CM3_PER_MIN));
        number(out, score.naive().map(a -> a.lower95() / CM3_PER_MIN));
        number(out, score.naive().map(a -> a.upper95() / CM3_PER_MIN));
        rig(out, test);
        number(out, Optional.of(score.simulateS()));
        number(out, Optional.of(score.analyseS()));
        text(out, score.failure().replace('"', '\''));
        text(out, answer.map(ScoreCsv::budget).orElse(""));
        return out.toString();
    }

    /** The largest sources, as standard uncertainties in percent of the estimate. */
    private static String budget(Score.Answer answer) {
        return answer.budget().stream()
                .limit(6)
                .map(line -> String.format(
                        Locale.ROOT,
                        "%s %.2f",
                        line.source(),
                        100 * line.standardUncertaintyM3PerS() / answer.estimate()))
                .collect(Collectors.joining("; "));
    }

    private static void rig(StringBuilder out, SimulatedCase test) {
        Rig rig = test.truth().rig();
        number(out, Optional.of(rig.fill().volumeM3() / CM3));
        number(out, Optional.of(100 * rig.fill().air().fraction()));
        number(out, test.setup().pumpStrokeM3().map(Quantity::value).map(v -> v / CM3));
        number(out, Optional.of(rig.sensor().rateHz()));
        number(out, Optional.of(rig.sensor().noise().whitePa() / BAR));
        number(out, Optional.of(rig.heat().driftKPerS() * 3600));
        text(out, rig.sensor().oilChannel() ? "yes" : "no");
        text(out, test.showsPumping() ? "no" : "yes");
        number(out, Optional.of((double) rig.tests().size()));
        number(out, Optional.of((double) test.samples()));
    }

    private static void text(StringBuilder out, String value) {
        out.append(",\"").append(value).append('"');
    }

    private static void number(StringBuilder out, Optional<Double> value) {
        out.append(',');
        value.filter(v -> !v.isNaN() && !v.isInfinite())
                .ifPresent(v -> out.append(String.format(Locale.ROOT, "%.6g", v)));
    }
}
