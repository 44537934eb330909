package org.holdtrace.estimate;

import static org.holdtrace.estimate.WorkingUnits.M3_PER_CM3;
import static org.holdtrace.estimate.WorkingUnits.PA_PER_BAR;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.holdtrace.estimate.HoldTestResult.Leak;
import org.holdtrace.estimate.HoldTestResult.Route;
import org.holdtrace.estimate.HoldTestResult.RouteRate;
import org.holdtrace.quantity.Quantity;
import org.holdtrace.quantity.Unit;
import org.holdtrace.session.TestSetup;
import org.holdtrace.trace.HoldTest;
import org.holdtrace.trace.Trace;

/**
 * Stated inputs that cannot all be right: not off by their uncertainties, for which an interval is widened, but by a slip,
 * such as cm³ for litres. No interval allows for that, so no verdict may rest on it.
 */
final class Contradiction {
    /** Disagreement of the routes, or what an input had to give way by, in units of what may yet be bad luck. */
    private static final double ROUTES_BEYOND_LUCK = 4;

    private static final double INPUT_BEYOND_LUCK = 2;

    /** Routes whose intervals lie this many times apart contradict one another however wide they are. */
    private static final double APART = 3;

    /**
     * The least part of compliance times pressure that it takes to raise the pressure: at low pressure lines are more
     * compliant, but fast strokes meet stiffer oil.
     */
    private static final double LEAST_PART = 0.6;

    private static final double BEFORE_S = 0.5;

    private static final String ADVICE =
            " One of them must be wrong, perhaps by its unit or its decimal point; until it is put right no figure of this "
                    + "test holds.";

    private Contradiction() {}

    /** What contradicts what, as sentences; empty where all that is stated can be right. */
    static Optional<String> of(
            Joint joint,
            RouteFits routes,
            HoldTestResult.Compliance compliance,
            TestSetup setup,
            Trace trace,
            HoldTest test) {
        String what = oil(joint, compliance, setup, trace, test);
        if (what == null) {
            what = rates(routes, setup);
        }
        if (what == null && joint.tension() > INPUT_BEYOND_LUCK) {
            what = "the " + Cautions.tense(joint) + " does not fit the others and the pressures";
        }
        return what == null
                ? Optional.empty()
                : Optional.of("The stated inputs contradict one another: " + what + "." + ADVICE);
    }

    /** The strokes cannot have delivered what the line as stated would have taken; null where they can. */
    private static String oil(
            Joint joint, HoldTestResult.Compliance compliance, TestSetup setup, Trace trace, HoldTest test) {
        if (setup.pumpStrokeM3().isEmpty()
                || test.strokes().isEmpty()
                || !test.rest().fromRest()) {
            return null;
        }
        Quantity stroke = setup.pumpStrokeM3().get();
        int strokes = test.strokes().size();
        double most = (strokes + 1) * (stroke.value() + 2 * stroke.standardUncertainty());
        double rise = joint.data().peakBar * PA_PER_BAR - beforePa(trace, test);
        double least = LEAST_PART * compliance.lower95() * rise;
        if (least <= most) {
            return null;
        }
        return "raising the line they describe by " + digits(rise / PA_PER_BAR) + " bar takes "
                + digits(least / M3_PER_CM3) + " cm³ at least, and " + strokes
                + (strokes == 1 ? " stroke" : " strokes") + " of " + digits(stroke.value() / M3_PER_CM3)
                + " cm³ cannot have pumped that";
    }

    /** Pressure when the first stroke began, Pa: a trace may begin with the pump-up under way. */
    private static double beforePa(Trace trace, HoldTest test) {
        double startS = test.strokes().get(0).startS();
        int to = Math.max(1, trace.indexAt(startS));
        int from = Math.min(to - 1, trace.indexAt(startS - BEFORE_S));
        double[] before = new double[to - from];
        for (int i = from; i < to; i++) {
            before[i - from] = trace.pressurePa(i);
        }
        Arrays.sort(before);
        return before[before.length / 2] - test.rest().zeroPa();
    }

    /** The routes to the rate, each by its own inputs, lie further apart than luck can put them; null where not. */
    private static String rates(RouteFits routes, TestSetup setup) {
        RouteRate least = null;
        RouteRate most = null;
        for (RouteRate rate : routes.rates()) {
            least = least == null || rate.upper95() < least.upper95() ? rate : least;
            most = most == null || rate.lower95() > most.lower95() ? rate : most;
        }
        if (least == null || (least.route() == Route.DECAY) == (most.route() == Route.DECAY)) {
            return null;
        }
        boolean apart = most.lower95() > APART * least.upper95() && least.upper95() > 0;
        if (!apart && routes.disagreement() <= ROUTES_BEYOND_LUCK) {
            return null;
        }
        return "by " + inputs(most.route(), setup) + " the leak is " + interval(most) + " cm³/min, by "
                + inputs(least.route(), setup) + " it is " + interval(least);
    }

    private static String interval(RouteRate rate) {
        return digits(Unit.CM3_PER_MIN.fromSi(rate.lower95())) + " to "
                + digits(Unit.CM3_PER_MIN.fromSi(rate.upper95()));
    }

    /** The stated inputs a route rests on. */
    private static String inputs(Route route, TestSetup setup) {
        if (route != Route.DECAY) {
            return "the pump stroke";
        }
        List<String> names = new ArrayList<>();
        if (setup.trappedVolumeM3().isPresent()) {
            names.add("trapped volume");
        }
        if (setup.lineComplianceM3PerPa().isPresent()) {
            names.add("line compliance");
        }
        if (setup.bledVolumeM3().isPresent()) {
            names.add("bled volume");
        }
        return "the " + String.join(" and ", names);
    }

    /** Three digits, without an exponent. */
    private static String digits(double value) {
        return BigDecimal.valueOf(value)
                .round(new MathContext(3))
                .stripTrailingZeros()
                .toPlainString();
    }

    /** The rate with an interval that reaches no further than those of the single routes do. */
    static Leak bounded(Leak leak, List<RouteRate> routes) {
        double low = Double.POSITIVE_INFINITY;
        double high = 0;
        for (RouteRate rate : routes) {
            low = Math.min(low, rate.lower95());
            high = Math.max(high, rate.upper95());
        }
        if (low >= high) {
            return leak;
        }
        double upper = Math.min(high, Math.max(low, leak.upper95()));
        return new Leak(
                Math.min(upper, leak.m3PerS()),
                Math.min(upper, leak.lower95()),
                upper,
                leak.atPa(),
                leak.law(),
                leak.weights(),
                leak.smallestResolvableM3PerS());
    }
}
