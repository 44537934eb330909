package org.holdtrace.trace;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * The times at which the phases of one hold test meet, s, each of which may be moved. NaN stands for one that the test
 * does not have.
 */
public final class Boundaries {
    /** No two boundaries come nearer to one another than this, s: the shortest phase that can be of use. */
    public static final double CLOSEST_S = 0.05;

    private final double restFromS;
    private final Map<Boundary, Double> atS = new EnumMap<>(Boundary.class);
    private final double endS;

    private Boundaries(HoldTest test) {
        PhaseSpan rest = test.phase(Phase.REST).orElse(null);
        PhaseSpan pumping = test.phase(Phase.PUMP_UP).orElse(null);
        PhaseSpan plateau = test.phase(Phase.PLATEAU).orElse(null);
        PhaseSpan settling = test.phase(Phase.SETTLING).orElse(null);
        PhaseSpan hold = test.phase(Phase.HOLD).orElse(null);
        PhaseSpan bleed = test.phase(Phase.BLEED_OFF).orElse(null);
        restFromS = rest == null ? Double.NaN : rest.fromS();
        set(Boundary.PUMPING_STARTS, pumping == null ? Double.NaN : pumping.fromS());
        set(Boundary.PLATEAU_STARTS, plateau == null ? Double.NaN : plateau.fromS());
        set(Boundary.PUMPING_ENDS, pumping == null ? Double.NaN : pumping.toS());
        set(Boundary.HOLD_STARTS, hold == null ? Double.NaN : hold.fromS());
        set(Boundary.HOLD_ENDS, hold == null ? Double.NaN : hold.toS());
        PhaseSpan last = bleed != null ? bleed : hold != null ? hold : settling != null ? settling : pumping;
        endS = last == null ? Double.NaN : last.toS();
    }

    /** Those of {@code test}. */
    public static Boundaries of(HoldTest test) {
        return new Boundaries(test);
    }

    private void set(Boundary boundary, double timeS) {
        atS.put(boundary, timeS);
    }

    private double get(Boundary boundary) {
        return atS.get(boundary);
    }

    /** Where {@code boundary} is, s; empty where the test has none. */
    public OptionalDouble at(Boundary boundary) {
        return Double.isNaN(get(boundary)) ? OptionalDouble.empty() : OptionalDouble.of(get(boundary));
    }

    /** The earliest time {@code boundary}, which the test must have, may be moved to, s. */
    public double earliestS(Boundary boundary) {
        double before = boundary == Boundary.PUMPING_STARTS ? restFromS : Double.NaN;
        for (Boundary other : Boundary.values()) {
            if (other.compareTo(boundary) < 0 && !Double.isNaN(get(other))) {
                before = get(other);
            }
        }
        // Without a settling phase the hold may start where pumping ends.
        boolean mayMeet = boundary == Boundary.HOLD_STARTS;
        return Double.isNaN(before) ? get(boundary) : before + (mayMeet ? 0 : CLOSEST_S);
    }

    /** The latest time {@code boundary}, which the test must have, may be moved to, s. */
    public double latestS(Boundary boundary) {
        double after = endS;
        for (Boundary other : Boundary.values()) {
            if (other.compareTo(boundary) > 0 && !Double.isNaN(get(other))) {
                after = get(other);
                break;
            }
        }
        boolean mayMeet = boundary == Boundary.HOLD_ENDS
                || (boundary == Boundary.PUMPING_ENDS && !Double.isNaN(get(Boundary.HOLD_STARTS)));
        return after - (mayMeet ? 0 : CLOSEST_S);
    }

    /**
     * {@code test} with one of its boundaries moved. A stroke that reaches over the new start or end of pumping is cut
     * there, or left out where less than half of it remains; the mean of the plateau is taken anew. Zero and noise stay.
     *
     * @param trace the samples the test was found in
     * @throws IllegalArgumentException where the test has no such boundary or it cannot be there
     */
    public static HoldTest moved(Trace trace, HoldTest test, Boundary boundary, double toS) {
        Boundaries all = new Boundaries(test);
        if (all.at(boundary).isEmpty()) {
            throw new IllegalArgumentException(
                    "hold test " + test.number() + " has no place where " + boundary.label());
        }
        double earliestS = all.earliestS(boundary);
        double latestS = all.latestS(boundary);
        if (!(toS >= earliestS && toS <= latestS)) {
            throw new IllegalArgumentException("where " + boundary.label() + " must lie from " + earliestS + " to "
                    + latestS + " s in hold test " + test.number() + ", not at " + toS + " s");
        }
        all.set(boundary, toS);
        return all.applied(trace, test);
    }

    private HoldTest applied(Trace trace, HoldTest test) {
        List<PhaseSpan> spans = new ArrayList<>();
        double begin = get(Boundary.PUMPING_STARTS);
        double flat = get(Boundary.PLATEAU_STARTS);
        PhaseSpan settling = test.phase(Phase.SETTLING).orElse(null);
        double hold = get(Boundary.HOLD_STARTS);
        double pumped = get(Boundary.PUMPING_ENDS);
        double settledFrom = !Double.isNaN(pumped) ? pumped : settling == null ? hold : settling.fromS();
        double settledTo = !Double.isNaN(hold) ? hold : settling == null ? settledFrom : settling.toS();
        if (begin > restFromS) {
            spans.add(new PhaseSpan(Phase.REST, restFromS, begin));
        }
        if (pumped > begin) {
            spans.add(new PhaseSpan(Phase.PUMP_UP, begin, pumped));
        }
        OptionalDouble plateauMeanPa = test.plateauMeanPa();
        if (pumped > flat) {
            spans.add(new PhaseSpan(Phase.PLATEAU, flat, pumped));
            if (!test.phase(Phase.PLATEAU).equals(Optional.of(new PhaseSpan(Phase.PLATEAU, flat, pumped)))) {
                SampleWindow window = new SampleWindow(trace, test.rest().noisePa());
                plateauMeanPa = OptionalDouble.of(
                        TimeMean.of(window, flat, pumped) - test.rest().zeroPa());
            }
        }
        if (settledTo > settledFrom) {
            spans.add(new PhaseSpan(Phase.SETTLING, settledFrom, settledTo));
        }
        double holdEnd = get(Boundary.HOLD_ENDS);
        if (holdEnd > hold) {
            spans.add(new PhaseSpan(Phase.HOLD, hold, holdEnd));
        }
        PhaseSpan bleed = test.phase(Phase.BLEED_OFF).orElse(null);
        if (bleed != null) {
            double from = Double.isNaN(holdEnd) ? bleed.fromS() : holdEnd;
            spans.add(new PhaseSpan(Phase.BLEED_OFF, from, bleed.toS()));
        }
        return new HoldTest(test.number(), spans, strokes(test, begin, pumped), test.rest(), plateauMeanPa);
    }

    private static List<Stroke> strokes(HoldTest test, double fromS, double toS) {
        List<Stroke> kept = new ArrayList<>();
        for (Stroke stroke : test.strokes()) {
            double start = Math.max(stroke.startS(), fromS);
            double end = Math.min(stroke.endS(), toS);
            if (end - start >= 0.5 * (stroke.endS() - stroke.startS())) {
                kept.add(new Stroke(start, end));
            }
        }
        return kept;
    }
}
