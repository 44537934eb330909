package org.holdtrace.acquire;

import java.util.Optional;
import org.holdtrace.quantity.Quantity;
import org.holdtrace.session.TestSetup;
import org.holdtrace.trace.Phase;
import org.holdtrace.trace.Stroke;

/**
 * The leak as far as it can be told while the test goes on, and whether more waiting would tell more. What
 * the analysis makes of the whole recording is better; this is for the moment at which the valve may be opened. One
 * thread.
 *
 * <p>In a hold the leak is {@code C s p}: C from strokes, or volume and oil ({@link LiveCompliance}), s from the fall of
 * the pressure less what may be settling ({@link HoldSlope}). On a plateau it is the pump's mean flow.
 */
public final class LiveLeak {
    /** 97.5 % on one side, 95 % on both: normal distribution. */
    private static final double TIMES_UNCERTAINTY = 1.96;

    /** Nothing is enough before this time after the last stroke, s: a valve must be shut, and settling must show. */
    static final double LEAST_HOLD_S = 5;

    /** Where no limit is stated: what is smaller than this interests nobody, m³/s (0.05 cm³/min). */
    static final double SMALL_LEAK_M3_PER_S = 0.05e-6 / 60;

    /** Where no limit is stated: the fall of pressure is known well enough at this relative uncertainty. */
    static final double WELL_KNOWN = 0.1;

    /** When waiting could take away no more than about this share of the uncertainty, it is of no more use. */
    private static final double USELESS_PART = 0.25;

    private static final double EVALUATE_EVERY_S = 0.5;

    /** Mean flow over strokes: what is pumped in and lost in the pump, and where in a stroke the plateau begins. */
    private static final double PLATEAU_UNCERTAINTY = 0.05;

    /** A laminar leak goes with p, an orifice with √p: half-way between, a factor x of pressure leaves ln x of this. */
    private static final double LAW_UNCERTAINTY = 0.25;

    /** Where the leak does not go with pressure, its law is anybody's guess. */
    private static final double OTHER_LAW_UNCERTAINTY = 0.3;

    private static final int LEAST_PLATEAU_STROKES = 4;

    /** Below this part of the first pressure the leak's law matters more than further samples tell. */
    private static final double LOWEST_PART = 0.5;

    /** Above it the law does not matter. */
    private static final double NEAR_PART = 0.95;

    /**
     * The leak as known so far.
     *
     * @param leakM3PerS oil lost at {@code atPa}, m³/s
     * @param uncertaintyM3PerS its standard uncertainty
     * @param waitingM3PerS the part of that which waiting makes smaller
     * @param smallestM3PerS the smallest leak that could be told from none by now
     * @param atPa the pressure it is stated at, above zero
     * @param complianceM3PerPa compliance of the line there
     */
    public record Estimate(
            double leakM3PerS,
            double uncertaintyM3PerS,
            double waitingM3PerS,
            double smallestM3PerS,
            double atPa,
            double complianceM3PerPa) {}

    /** Whether to go on waiting. */
    public enum Verdict {
        /** Wait: more is to be learned. */
        WAIT,
        /** The question is answered: on which side of the limit, how large, or that it is smaller than matters. */
        ENOUGH,
        /** It is not answered, and waiting would not answer it: what is stated about pump or volume is too uncertain. */
        NO_MORE_TO_LEARN
    }

    private final TestSetup setup;
    private final LiveCompliance compliance;
    private final HoldSlope slope = new HoldSlope(LOWEST_PART);
    private final HoldSlope early = new HoldSlope(NEAR_PART);
    private Optional<Estimate> estimate = Optional.empty();
    private Optional<Estimate> before = Optional.empty();
    private Optional<Estimate> plateauLeak = Optional.empty();
    private Verdict verdict = Verdict.WAIT;
    private Verdict candidate = Verdict.WAIT;
    private double lastStrokeEndS = Double.NaN;
    private double evaluatedS = Double.NEGATIVE_INFINITY;
    private double plateauFromS = Double.NaN;
    private double plateauLastS;
    private int plateauStrokes;
    private double plateauSum;
    private double plateauSpanS;
    private double sampleS = Double.NaN;
    private boolean over = true;
    private boolean otherLaw;

    /** @param setup what is known of the test */
    public LiveLeak(TestSetup setup) {
        this.setup = setup;
        compliance = new LiveCompliance(setup);
    }

    /** A pump-up begins. */
    void newTest() {
        compliance.clear();
        estimate = Optional.empty();
        before = Optional.empty();
        plateauLeak = Optional.empty();
        verdict = Verdict.WAIT;
        candidate = Verdict.WAIT;
        plateauFromS = Double.NaN;
        lastStrokeEndS = Double.NaN;
        over = false;
    }

    /**
     * A stroke is over; it raised the pressure by {@code risePa}, to {@code endPa} above zero.
     *
     * @param goesOn whether it is the last one, which has gone on
     */
    void stroke(Stroke stroke, double risePa, double endPa, boolean goesOn) {
        if (goesOn) {
            compliance.forgetLast();
        }
        compliance.stroke(stroke.endS() - stroke.startS(), risePa, endPa);
        lastStrokeEndS = stroke.endS();
        estimate = Optional.empty();
        before = Optional.empty();
        verdict = Verdict.WAIT;
        candidate = Verdict.WAIT;
        over = false;
        slope.begin(stroke.endS());
        early.begin(stroke.endS());
        if (!goesOn && stroke.startS() > plateauFromS) {
            plateauStrokes++;
            plateauLastS = stroke.startS();
            plateauLeak = plateauLeak();
        }
    }

    /** Pressure has stopped rising since the stroke that began at {@code sinceS}. */
    void plateau(double sinceS) {
        plateauFromS = sinceS;
        plateauStrokes = 0;
        plateauSum = 0;
        plateauSpanS = 0;
    }

    /** Pressure is let off. The last moments may have been that already: what was known before them stands. */
    void letOff() {
        if (before.isPresent()) {
            estimate = before;
        }
        over = true;
    }

    /** Takes a sample: pressure above zero. */
    void accept(double atS, double pa, Phase phase, double noisePa) {
        double stepS = Double.isNaN(sampleS) ? 0 : atS - sampleS;
        sampleS = atS;
        if (over || phase == Phase.REST || phase == Phase.BLEED_OFF) {
            return;
        }
        if (phase == Phase.PUMP_UP && !Double.isNaN(plateauFromS)) {
            plateauSum += pa * stepS;
            plateauSpanS += stepS;
        }
        if (atS <= lastStrokeEndS) {
            return;
        }
        if (Double.isNaN(lastStrokeEndS)) { // recording began with pressure on
            lastStrokeEndS = atS;
            slope.begin(atS);
            early.begin(atS);
        }
        slope.accept(atS, pa, noisePa);
        early.accept(atS, pa, noisePa);
        if (atS - evaluatedS >= EVALUATE_EVERY_S || atS < evaluatedS) {
            evaluatedS = atS;
            evaluate(atS, phase);
        }
    }

    private void evaluate(double atS, Phase phase) {
        before = estimate;
        HoldSlope.Answer answer = answer();
        if (answer == null || phase == Phase.PUMP_UP) {
            estimate = plateauLeak;
            return;
        }
        Optional<Estimate> decay = decay(answer);
        estimate = decay.isPresent() && plateauLeak.isPresent()
                ? Optional.of(combine(decay.get(), plateauLeak.get()))
                : decay.isPresent() ? decay : plateauLeak;
        if (phase != Phase.HOLD || atS - lastStrokeEndS < LEAST_HOLD_S) {
            return;
        }
        Verdict now = estimate.isPresent() ? judge(estimate.get()) : judgeSlope(answer);
        verdict = now == candidate ? now : Verdict.WAIT; // twice in a row: one reading alone opens no valve
        candidate = now;
    }

    /**
     * The fall near the first pressure where that is much faster than the whole hold suggests: a leak that stops further
     * down, such as a relief that opens early, looks like settling to a model that knows laminar leaks only.
     */
    private HoldSlope.Answer answer() {
        HoldSlope.Answer whole = slope.answer();
        HoldSlope.Answer near = early.answer();
        otherLaw = whole != null
                && near != null
                && near.perS() - whole.perS()
                        > TIMES_UNCERTAINTY * Math.hypot(near.uncertaintyPerS(), whole.uncertaintyPerS());
        return otherLaw ? near : whole;
    }

    private Optional<Estimate> decay(HoldSlope.Answer answer) {
        Optional<Quantity> known = compliance.atM3PerPa(answer.fromPa(), answer.perS());
        if (known.isEmpty()) {
            return Optional.empty();
        }
        double c = known.get().value();
        double atPa = atPa(answer.fromPa());
        double leak = c * answer.perS() * atPa; // a laminar leak goes with pressure
        double bySlope = c * answer.uncertaintyPerS() * atPa;
        double law = LAW_UNCERTAINTY * (Math.abs(Math.log(atPa / answer.fromPa())) + 1 - answer.fellTo());
        if (otherLaw) {
            law = Math.hypot(law, OTHER_LAW_UNCERTAINTY);
        }
        double byRest = Math.abs(leak) * Math.hypot(known.get().relativeUncertainty(), law);
        return Optional.of(
                new Estimate(leak, Math.hypot(bySlope, byRest), bySlope, TIMES_UNCERTAINTY * bySlope, atPa, c));
    }

    private double atPa(double heldPa) {
        return setup.referencePressurePa()
                .map(Quantity::value)
                .filter(pa -> pa > 0)
                .orElse(heldPa);
    }

    private Optional<Estimate> plateauLeak() {
        if (setup.pumpStrokeM3().isEmpty() || plateauStrokes < LEAST_PLATEAU_STROKES || !(plateauSpanS > 0)) {
            return Optional.empty();
        }
        Quantity volume = setup.pumpStrokeM3().get();
        double meanPa = plateauSum / plateauSpanS;
        double flow = plateauStrokes * volume.value() / (plateauLastS - plateauFromS);
        double atPa = atPa(meanPa);
        double law = LAW_UNCERTAINTY * Math.abs(Math.log(atPa / meanPa));
        double leak = flow * atPa / meanPa;
        double u = leak
                * Math.sqrt(volume.relativeUncertainty() * volume.relativeUncertainty()
                        + PLATEAU_UNCERTAINTY * PLATEAU_UNCERTAINTY
                        + law * law);
        return Optional.of(new Estimate(leak, u, 0, TIMES_UNCERTAINTY * u, atPa, Double.NaN));
    }

    /** The surer of the two: they share the stroke's volume, and a mean would count it twice. */
    private static Estimate combine(Estimate decay, Estimate plateau) {
        return plateau.uncertaintyM3PerS < decay.uncertaintyM3PerS
                        && Math.abs(plateau.atPa - decay.atPa) < 0.2 * decay.atPa
                ? plateau
                : decay;
    }

    private Verdict judge(Estimate now) {
        double u = now.uncertaintyM3PerS;
        boolean waitingHelps = now.waitingM3PerS > USELESS_PART * u;
        if (setup.limitM3PerS().isPresent()) {
            Quantity limit = setup.limitM3PerS().get();
            double off = Math.abs(now.leakM3PerS - limit.value());
            if (off > TIMES_UNCERTAINTY * Math.hypot(u, limit.standardUncertainty())) {
                return Verdict.ENOUGH;
            }
            return waitingHelps ? Verdict.WAIT : Verdict.NO_MORE_TO_LEARN;
        }
        boolean told = now.leakM3PerS > TIMES_UNCERTAINTY * now.waitingM3PerS;
        boolean known = told && now.waitingM3PerS <= WELL_KNOWN * now.leakM3PerS;
        boolean nothing = Math.max(0, now.leakM3PerS) + TIMES_UNCERTAINTY * u < SMALL_LEAK_M3_PER_S;
        return known || nothing || now.smallestM3PerS < SMALL_LEAK_M3_PER_S ? Verdict.ENOUGH : Verdict.WAIT;
    }

    /** Without a compliance there is no rate; the fall itself may still be known well. */
    private static Verdict judgeSlope(HoldSlope.Answer answer) {
        return answer.uncertaintyPerS() <= WELL_KNOWN * answer.perS() ? Verdict.ENOUGH : Verdict.WAIT;
    }

    /** The leak as known so far; empty where nothing can be told. */
    public Optional<Estimate> estimate() {
        return estimate;
    }

    /** Whether to go on waiting. */
    public Verdict verdict() {
        return verdict;
    }
}
