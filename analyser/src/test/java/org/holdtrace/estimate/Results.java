package org.holdtrace.estimate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Locale;
import org.holdtrace.estimate.HoldTestResult.Caution;
import org.holdtrace.estimate.HoldTestResult.Leak;
import org.holdtrace.estimate.HoldTestResult.Route;
import org.holdtrace.estimate.HoldTestResult.RouteRate;
import org.holdtrace.quantity.Unit;

/** What tests ask of a result, in the units of the trade. */
final class Results {
    private Results() {}

    static HoldTestResult of(ClosedForm.Made made, Known known) {
        return of(made, known, EstimateOptions.none());
    }

    static HoldTestResult of(ClosedForm.Made made, Known known, EstimateOptions options) {
        return HoldTestEstimator.estimate(made.trace(), made.test(), known.setup(), options);
    }

    static Leak leak(HoldTestResult result) {
        return result.leak().orElseThrow();
    }

    static double cm3PerMin(HoldTestResult result) {
        return Unit.CM3_PER_MIN.fromSi(leak(result).m3PerS());
    }

    static double halfWidthCm3PerMin(HoldTestResult result) {
        return Unit.CM3_PER_MIN.fromSi(leak(result).upper95() - leak(result).lower95()) / 2;
    }

    static RouteRate route(HoldTestResult result, Route route) {
        return result.routes().stream()
                .filter(rate -> rate.route() == route)
                .findFirst()
                .orElseThrow();
    }

    static List<Route> routes(HoldTestResult result) {
        return result.routes().stream().map(RouteRate::route).toList();
    }

    static List<String> cautions(HoldTestResult result) {
        return result.cautions().stream().map(Caution::code).toList();
    }

    /** The interval holds the truth and the estimate is within {@code relative} of it. */
    static void assertLeak(double cm3PerMin, double relative, HoldTestResult result) {
        Leak leak = leak(result);
        String found = String.format(
                Locale.ROOT,
                "truth %.6g, found %.6g from %.6g to %.6g cm3/min, %s",
                cm3PerMin,
                cm3PerMin(result),
                Unit.CM3_PER_MIN.fromSi(leak.lower95()),
                Unit.CM3_PER_MIN.fromSi(leak.upper95()),
                leak.law());
        double truth = Unit.CM3_PER_MIN.toSi(cm3PerMin);
        assertTrue(leak.lower95() <= truth && truth <= leak.upper95(), found);
        assertEquals(cm3PerMin, cm3PerMin(result), relative * cm3PerMin, found);
    }

    /** The same for the compliance. */
    static void assertCompliance(double cm3PerBar, double relative, HoldTestResult result) {
        HoldTestResult.Compliance c = result.compliance().orElseThrow();
        String found = String.format(
                Locale.ROOT,
                "truth %.6g, found %.6g from %.6g to %.6g cm3/bar",
                cm3PerBar,
                Unit.CM3_PER_BAR.fromSi(c.m3PerPa()),
                Unit.CM3_PER_BAR.fromSi(c.lower95()),
                Unit.CM3_PER_BAR.fromSi(c.upper95()));
        double truth = Unit.CM3_PER_BAR.toSi(cm3PerBar);
        assertTrue(c.lower95() <= truth && truth <= c.upper95(), found);
        assertEquals(cm3PerBar, Unit.CM3_PER_BAR.fromSi(c.m3PerPa()), relative * cm3PerBar, found);
    }
}
