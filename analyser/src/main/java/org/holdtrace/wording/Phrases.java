package org.holdtrace.wording;

import static org.holdtrace.wording.Figures.decimalsFor;
import static org.holdtrace.wording.Figures.fixed;
import static org.holdtrace.wording.Figures.significant;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.holdtrace.estimate.HoldTestResult;
import org.holdtrace.leak.Law;
import org.holdtrace.session.TestSetup;

/** Results in words, the same on every screen and page. */
public final class Phrases {
    private Phrases() {}

    /** Machine, component and port as far as the setup tells, in that order; empty where it tells none. */
    public static String subject(TestSetup setup) {
        List<String> parts = new ArrayList<>();
        addIfPresent("", setup.machine(), parts);
        addIfPresent("", setup.component(), parts);
        addIfPresent("port ", setup.port(), parts);
        return String.join(", ", parts);
    }

    private static void addIfPresent(String before, Optional<String> part, List<String> parts) {
        if (part.isPresent()) {
            parts.add(before + part.get());
        }
    }

    /** The pressure a leak is stated at: "120 bar". */
    public static String pressure(double pa) {
        return pressure(pa, ShownUnits.METRIC);
    }

    /** As {@link #pressure(double)}: "1740 psi". */
    public static String pressure(double pa, ShownUnits units) {
        return significant(units.pressure().fromSi(pa), 4) + " " + ShownUnits.name(units.pressure());
    }

    /** The leak rate with its unit: "8.04 cm³/min", or that there is none to be seen. */
    public static String rate(HoldTestResult.Leak leak) {
        return rate(leak, ShownUnits.METRIC);
    }

    /** As {@link #rate(HoldTestResult.Leak)}: "0.491 in³/min". */
    public static String rate(HoldTestResult.Leak leak, ShownUnits units) {
        if (leak.law() == Law.NONE) {
            return "none that can be told from zero";
        }
        double lower = units.flow().fromSi(leak.lower95());
        double upper = units.flow().fromSi(leak.upper95());
        return fixed(units.flow().fromSi(leak.m3PerS()), decimalsFor(lower, upper)) + " "
                + ShownUnits.name(units.flow());
    }

    /** An interval of rates without its unit: "7.31 to 8.79". */
    public static String interval(double lowerM3PerS, double upperM3PerS) {
        return interval(lowerM3PerS, upperM3PerS, ShownUnits.METRIC);
    }

    /** As {@link #interval(double, double)}, in other units. */
    public static String interval(double lowerM3PerS, double upperM3PerS, ShownUnits units) {
        double lower = units.flow().fromSi(lowerM3PerS);
        double upper = units.flow().fromSi(upperM3PerS);
        int decimals = decimalsFor(lower, upper);
        return fixed(lower, decimals) + " to " + fixed(upper, decimals);
    }

    /** The rate by one route and its interval, without unit: "8.04 (7.31 to 8.79)". */
    public static String rateWithInterval(double m3PerS, double lowerM3PerS, double upperM3PerS) {
        return rateWithInterval(m3PerS, lowerM3PerS, upperM3PerS, ShownUnits.METRIC);
    }

    /** As {@link #rateWithInterval(double, double, double)}, in other units. */
    public static String rateWithInterval(double m3PerS, double lowerM3PerS, double upperM3PerS, ShownUnits units) {
        int decimals =
                decimalsFor(units.flow().fromSi(lowerM3PerS), units.flow().fromSi(upperM3PerS));
        return fixed(units.flow().fromSi(m3PerS), decimals) + " (" + interval(lowerM3PerS, upperM3PerS, units) + ")";
    }

    /** A rate that bounds something, rounded to so many digits, with its unit: "15 cm³/min". */
    public static String bound(double m3PerS, int digits, ShownUnits units) {
        return significant(units.flow().fromSi(m3PerS), digits) + " " + ShownUnits.name(units.flow());
    }

    /** What a law means for the part, in the words of the trade. */
    public static String law(Law law) {
        return switch (law) {
            case NONE -> "none";
            case LAMINAR -> "laminar, as through a clearance";
            case ORIFICE -> "orifice, as past a damaged seat";
            case MIXED -> "mixed, a clearance and a damaged seat at once";
            case THRESHOLD -> "threshold, as of a valve that opens too early";
        };
    }

    /** Outcome and limit: "WITHIN the limit of 15 cm³/min". */
    public static String outcome(HoldTestResult.Verdict verdict) {
        return outcome(verdict, ShownUnits.METRIC);
    }

    /** As {@link #outcome(HoldTestResult.Verdict)}, in other units. */
    public static String outcome(HoldTestResult.Verdict verdict, ShownUnits units) {
        String limit = " the limit of " + bound(verdict.limitM3PerS(), 4, units);
        return switch (verdict.outcome()) {
            case WITHIN_LIMIT -> "WITHIN" + limit;
            case OVER_LIMIT -> "OVER" + limit;
            case UNDECIDED -> "UNDECIDED against" + limit;
        };
    }
}
