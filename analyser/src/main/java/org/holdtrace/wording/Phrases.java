package org.holdtrace.wording;

import static org.holdtrace.wording.Figures.bar;
import static org.holdtrace.wording.Figures.cm3PerMin;
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
        return significant(bar(pa), 4) + " bar";
    }

    /** The leak rate with its unit: "8.04 cm³/min", or that there is none to be seen. */
    public static String rate(HoldTestResult.Leak leak) {
        if (leak.law() == Law.NONE) {
            return "none that can be told from zero";
        }
        return fixed(cm3PerMin(leak.m3PerS()), decimalsFor(cm3PerMin(leak.lower95()), cm3PerMin(leak.upper95())))
                + " cm³/min";
    }

    /** An interval of rates without its unit: "7.31 to 8.79". */
    public static String interval(double lowerM3PerS, double upperM3PerS) {
        double lower = cm3PerMin(lowerM3PerS);
        double upper = cm3PerMin(upperM3PerS);
        int decimals = decimalsFor(lower, upper);
        return fixed(lower, decimals) + " to " + fixed(upper, decimals);
    }

    /** The rate by one route and its interval, without unit: "8.04 (7.31 to 8.79)". */
    public static String rateWithInterval(double m3PerS, double lowerM3PerS, double upperM3PerS) {
        return fixed(cm3PerMin(m3PerS), decimalsFor(cm3PerMin(lowerM3PerS), cm3PerMin(upperM3PerS))) + " ("
                + interval(lowerM3PerS, upperM3PerS) + ")";
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
        String limit = " the limit of " + significant(cm3PerMin(verdict.limitM3PerS()), 4) + " cm³/min";
        return switch (verdict.outcome()) {
            case WITHIN_LIMIT -> "WITHIN" + limit;
            case OVER_LIMIT -> "OVER" + limit;
            case UNDECIDED -> "UNDECIDED against" + limit;
        };
    }
}
