package org.holdtrace.estimate;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.holdtrace.leak.Law;
import org.holdtrace.trace.HoldTest;

/**
 * Everything the analyser says about one hold test. SI throughout; units are the business of the edges.
 *
 * @param holdTest phases, strokes and rest level
 * @param compliance isothermal compliance dV/dp at the reference pressure, where it could be had
 * @param leak the combined leak rate; empty only where there is no usable hold or plateau
 * @param routes the rate by each route whose inputs exist
 * @param agreement whether the routes agree; empty with fewer than two
 * @param verdict comparison with the limit, where one was given and a leak was found
 * @param budget what the interval owes to each source, largest first
 * @param cautions what the reader must know
 * @param picture what charts are drawn from, where there is a fit
 */
public record HoldTestResult(
        HoldTest holdTest,
        Optional<Compliance> compliance,
        Optional<Leak> leak,
        List<RouteRate> routes,
        Optional<Agreement> agreement,
        Optional<Verdict> verdict,
        List<BudgetLine> budget,
        List<Caution> cautions,
        Optional<FitPicture> picture) {
    public HoldTestResult {
        routes = List.copyOf(routes);
        budget = List.copyOf(budget);
        cautions = List.copyOf(cautions);
    }

    /** Why nothing can rest on the rate, as part of a sentence; empty where something can. */
    public Optional<String> nothingRestsOnIt() {
        return Cautions.nothingRests(cautions);
    }

    /**
     * Compliance of everything pressurised.
     *
     * @param m3PerPa dV/dp, m³/Pa
     * @param lower95 lower end of its 95 % interval
     * @param upper95 upper end
     * @param from what it rests on: "strokes", "volume and oil", "bled volume"
     */
    public record Compliance(double m3PerPa, double lower95, double upper95, List<String> from) {
        public Compliance {
            from = List.copyOf(from);
        }
    }

    /**
     * The leak rate, as a volume of oil at line pressure.
     *
     * @param m3PerS best estimate, m³/s
     * @param lower95 lower end of the 95 % coverage interval; 0 where the law is none
     * @param upper95 upper end; where the law is none, what can be excluded
     * @param atPa gauge pressure it is stated for, Pa
     * @param law the law it follows
     * @param weights AICc weight of each law, summing to 1
     * @param smallestResolvableM3PerS smallest leak this setup and hold could have told from zero, m³/s
     */
    public record Leak(
            double m3PerS,
            double lower95,
            double upper95,
            double atPa,
            Law law,
            Map<Law, Double> weights,
            double smallestResolvableM3PerS) {
        public Leak {
            weights = Law.ordered(weights);
        }
    }

    /** A way to a leak rate that rests on inputs of its own. */
    public enum Route {
        /** Compliance from volume and oil, or from bled volume, times dp/dt over the hold. */
        DECAY("decay"),
        /** Known strokes calibrate the line; what is lost between strokes and in the hold is the leak. */
        STROKE_TAILS("stroke tails"),
        /** Pumped flow over the plateau. */
        PLATEAU_FLOW("plateau flow");

        private final String label;

        Route(String label) {
            this.label = label;
        }

        /** The word used in output and on screens. */
        public String label() {
            return label;
        }
    }

    /** The rate by one route, m³/s at the leak's pressure, with its 95 % interval. */
    public record RouteRate(Route route, double m3PerS, double lower95, double upper95) {}

    /** Chi-square of the routes about their weighted mean with the covariance of what they share. */
    public record Agreement(double chiSquare, int degreesOfFreedom, boolean agree) {}

    /** What the comparison with the limit says. */
    public enum Outcome {
        WITHIN_LIMIT("within limit"),
        OVER_LIMIT("over limit"),
        UNDECIDED("undecided");

        private final String label;

        Outcome(String label) {
            this.label = label;
        }

        /** The word used in output and on screens. */
        public String label() {
            return label;
        }
    }

    /**
     * What the comparison with a limit says.
     *
     * @param outcome within, over, or undecided
     * @param limitM3PerS the limit, m³/s
     * @param probabilityOver the probability that the leak is over it; NaN where the verdict is withheld
     * @param withheld why no verdict is given although the figures would make one: part of a sentence
     */
    public record Verdict(Outcome outcome, double limitM3PerS, double probabilityOver, Optional<String> withheld) {
        /** A verdict that the figures make. */
        public Verdict(Outcome outcome, double limitM3PerS, double probabilityOver) {
            this(outcome, limitM3PerS, probabilityOver, Optional.empty());
        }

        /** The same comparison left undecided, since the figures cannot be trusted. */
        Verdict withheld(String why) {
            return new Verdict(Outcome.UNDECIDED, limitM3PerS, Double.NaN, Optional.of(why));
        }
    }

    /** One source of uncertainty and the standard uncertainty of the leak rate it causes, m³/s. */
    public record BudgetLine(String source, double standardUncertaintyM3PerS) {}

    /** A stable code and a sentence for the reader. */
    public record Caution(String code, String text) {}

    /** A point of the fit over settling and hold: a block mean with the zero taken off, and the model there. */
    public record FitPoint(double timeS, double observedPa, double fittedPa) {
        /** Observed less fitted, Pa. */
        public double residualPa() {
            return observedPa - fittedPa;
        }
    }

    /** A point of the leak curve: pressure (Pa), leak (m³/s) and its 95 % band. */
    public record CurvePoint(double pressurePa, double m3PerS, double lower95, double upper95) {}

    /** What charts are drawn from: the fit over the hold and the leak against pressure. */
    public record FitPicture(List<FitPoint> fit, List<CurvePoint> leakCurve) {
        public FitPicture {
            fit = List.copyOf(fit);
            leakCurve = List.copyOf(leakCurve);
        }
    }
}
