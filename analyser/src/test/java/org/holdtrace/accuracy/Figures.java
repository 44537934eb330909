package org.holdtrace.accuracy;

import java.util.Arrays;
import java.util.List;
import java.util.function.Predicate;
import java.util.function.ToDoubleFunction;
import org.holdtrace.accuracy.Score.Answer;
import org.holdtrace.estimate.HoldTestResult.Outcome;
import org.holdtrace.leak.Law;

/** Figures of merit of scored tests. Shares run from 0 to 1; of no tests they are NaN. */
record Figures(List<Score> scores) {
    /** A count of a count. */
    record Share(int hits, int of) {
        double value() {
            return (double) hits / of;
        }

        /** Binomial standard error. */
        double standardError() {
            return Math.sqrt(value() * (1 - value()) / of);
        }
    }

    Figures {
        scores = List.copyOf(scores);
    }

    Figures of(Predicate<Score> which) {
        return new Figures(scores.stream().filter(which).toList());
    }

    int count() {
        return scores.size();
    }

    /** Intervals that hold the truth. */
    Share coverage() {
        return share(answers(), Answer::covered);
    }

    /** Leaks found on components that have none. */
    Share falseLeaks() {
        return share(of(Score::isTight).answers(), a -> a.law() != Law.NONE || a.lower() > 0);
    }

    /** Leaks not told from zero though there is one at the pressure named. */
    Share missedLeaks() {
        return share(leaking().answers(), a -> a.law() == Law.NONE);
    }

    Share wrongVerdicts() {
        return share(judged(), Answer::wrong);
    }

    Share undecided() {
        return share(judged(), a -> a.verdict().orElseThrow() == Outcome.UNDECIDED);
    }

    /** The law right where its weight lies between two bounds. */
    Share lawRight(double above, double upTo) {
        int hits = 0;
        int n = 0;
        for (Score score : answered()) {
            Answer answer = score.answer().orElseThrow();
            if (answer.heaviestWeight() > above && answer.heaviestWeight() <= upTo) {
                n++;
                hits += answer.heaviest() == score.trueLaw() ? 1 : 0;
            }
        }
        return new Share(hits, n);
    }

    Share noAnswer() {
        return new Share((int) scores.stream().filter(s -> s.answer().isEmpty()).count(), scores.size());
    }

    Share strokesWrong() {
        return share(answers(), a -> !a.strokesRight());
    }

    Share complianceCoverage() {
        return share(answers(), Answer::complianceCovered);
    }

    double medianComplianceError() {
        return median(answers(), a -> Math.abs(a.complianceError()));
    }

    /** Median size of the relative error, of leaks there are. */
    double medianError() {
        return median(leaking().answers(), a -> Math.abs(a.relativeError()));
    }

    /** Mean error in half-widths of the interval. */
    double bias() {
        return leaking().answers().stream()
                .filter(a -> a.halfWidth() > 0)
                .mapToDouble(a -> (a.estimate() - a.truth()) / a.halfWidth())
                .average()
                .orElse(Double.NaN);
    }

    /** Median of the half-width over the unavoidable one; of leaks told from zero where something sets the scale. */
    double medianWidthRatio() {
        return median(
                leaking().answers().stream()
                        .filter(a -> a.law() != Law.NONE && a.unavoidableRelative() < 1)
                        .toList(),
                a -> a.halfWidth() / (1.96 * a.unavoidableRelative() * a.truth()));
    }

    /** Tests whose component leaks at the pressure the analyser named. */
    Figures leaking() {
        return of(s -> !s.isTight() && s.answer().map(a -> a.truth() > 0).orElse(false));
    }

    double medianAnalyseS() {
        return Arrays.stream(sorted(scores.stream().mapToDouble(Score::analyseS).toArray()))
                .skip(count() / 2)
                .findFirst()
                .orElse(Double.NaN);
    }

    double longestAnalyseS() {
        return scores.stream().mapToDouble(Score::analyseS).max().orElse(Double.NaN);
    }

    /** Of the single exponential: how often its interval holds the truth. */
    Share naiveCoverage() {
        int hits = 0;
        int n = 0;
        for (Score score : withNaive()) {
            SingleExponential.Answer naive = score.naive().orElseThrow();
            double truth = score.answer().orElseThrow().truth();
            n++;
            hits += naive.lower95() <= truth && truth <= naive.upper95() ? 1 : 0;
        }
        return new Share(hits, n);
    }

    Share naiveFalseLeaks() {
        List<Score> tight = of(Score::isTight).withNaive();
        return new Share(
                (int) tight.stream()
                        .filter(s -> s.naive().orElseThrow().lower95() > 0)
                        .count(),
                tight.size());
    }

    double naiveMedianError() {
        double[] errors = leaking().withNaive().stream()
                .mapToDouble(s -> Math.abs(s.naive().orElseThrow().m3PerS()
                                / s.answer().orElseThrow().truth()
                        - 1))
                .toArray();
        return middle(errors);
    }

    /** Tests that the single exponential answers too. */
    List<Score> withNaive() {
        return answered().stream().filter(s -> s.naive().isPresent()).toList();
    }

    List<Score> answered() {
        return scores.stream().filter(s -> s.answer().isPresent()).toList();
    }

    List<Answer> answers() {
        return answered().stream().map(s -> s.answer().orElseThrow()).toList();
    }

    private List<Answer> judged() {
        return answers().stream().filter(a -> a.verdict().isPresent()).toList();
    }

    private static Share share(List<Answer> answers, Predicate<Answer> hit) {
        return new Share((int) answers.stream().filter(hit).count(), answers.size());
    }

    private static double median(List<Answer> answers, ToDoubleFunction<Answer> value) {
        return middle(answers.stream().mapToDouble(value).toArray());
    }

    private static double middle(double[] values) {
        double[] sorted = sorted(values);
        int n = sorted.length;
        return n == 0 ? Double.NaN : 0.5 * (sorted[(n - 1) / 2] + sorted[n / 2]);
    }

    private static double[] sorted(double[] values) {
        double[] copy = values.clone();
        Arrays.sort(copy);
        return copy;
    }
}
