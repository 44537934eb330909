package org.holdtrace.rig;

import java.util.ArrayList;
import java.util.List;

/** The hand that carries out a rig's test plans one after the other. */
final class PlannedHand {
    /** A rise of the highest pressure below this share does not count as one. */
    private static final double NO_RISE = 0.005;

    /** The valve is shut this long before the first stroke. */
    private static final double SHUT_BEFORE_S = 0.3;

    /** Bleed valves are opened in this time. */
    private static final double OPENING_S = 0.3;

    /** Flow coefficient of the open line to the tank while it rests, m³/(s √Pa): a litre a minute at 0.03 bar. */
    private static final double REST_VENT = 3e-7;

    private enum State {
        RESTING,
        PUMPING,
        HOLDING,
        BLEEDING,
        DONE
    }

    private final Rig rig;
    private final LiveRig live;
    private final List<Truth.Test> closed = new ArrayList<>();
    private TestRecord unclosed;
    private TestRecord test;
    private State state = State.RESTING;
    private double restToS;
    private boolean shut;
    private HandStroke stroke;
    private double fullM3;
    private double pumpedBeforeM3;
    private double offeredBeforeM3;
    private double nextStrokeS;
    private double highestPa;
    private int strokesSinceRise;
    private double originS;

    PlannedHand(Rig rig, LiveRig live) {
        this.rig = rig;
        this.live = live;
        live.open(0, REST_VENT, 0);
        begin(0, 0);
    }

    boolean isDone() {
        return state == State.DONE;
    }

    /** Whether samples are recorded; a first test that starts pumped up is recorded only from its hold on. */
    boolean isRecording() {
        boolean firstPumping = test == null || (unclosed == null && closed.isEmpty() && !isHoldingOrLater());
        return !rig.tests().get(0).startsPumpedUp() || !firstPumping;
    }

    private boolean isHoldingOrLater() {
        return state == State.HOLDING || state == State.BLEEDING || state == State.DONE;
    }

    /** Time 0 of the recording on the simulation's own clock, s. */
    void setOrigin(double timeS) {
        originS = timeS;
    }

    /** Whether something happens quickly now. */
    boolean isBusy() {
        double t = live.timeS();
        return switch (state) {
            case RESTING -> t > restToS - SHUT_BEFORE_S - 0.05;
            case PUMPING -> true;
            case HOLDING -> t < test.lastEndS + 0.1 + rig.pump().shutOff().withinS() || t > test.holdToS - 0.05;
            case BLEEDING -> t < test.holdToS + OPENING_S + 3;
            case DONE -> false;
        };
    }

    /** What happened, once all is done. */
    List<Truth.Test> tests() {
        return closed;
    }

    private void begin(int index, double nowS) {
        if (index == rig.tests().size()) {
            state = State.DONE;
            closeEarlier();
            return;
        }
        test = new TestRecord(rig.tests().get(index), nowS);
        state = State.RESTING;
        restToS = nowS + Math.max(test.plan.restS(), SHUT_BEFORE_S);
        shut = false;
        stroke = null;
        highestPa = 0;
        strokesSinceRise = 0;
    }

    /** Oil is caught until the valve is shut for the next test. */
    private void closeEarlier() {
        if (unclosed != null) {
            closed.add(unclosed.close(closed.size() + 1, live.bledM3(), originS));
            unclosed = null;
        }
    }

    /** Decides what happens in the step that begins now. */
    void before(double stepS) {
        double t = live.timeS();
        if (state == State.RESTING && !shut && t + stepS > restToS - SHUT_BEFORE_S) {
            closeEarlier();
            live.shut();
            live.drain(test.plan.drainedM3());
            shut = true;
        }
        if (state == State.RESTING && t + stepS > restToS) {
            state = State.PUMPING;
            nextStrokeS = restToS;
        }
        if (state == State.PUMPING && stroke == null && t + stepS > nextStrokeS) {
            beginStroke(Math.max(t, nextStrokeS));
        }
        if (state == State.HOLDING && test.plan.bleedS() > 0 && t + stepS > test.holdToS) {
            test.endHold(live);
            live.open(test.holdToS, test.plan.bleedCoefficient(), OPENING_S);
            state = State.BLEEDING;
        }
    }

    /** Takes note of what the step that began at {@code fromS} at pressure {@code fromPa} has done. */
    void after(double fromS, double fromPa) {
        double t = live.timeS();
        double p = live.pressurePa();
        test.peakPa = Math.max(test.peakPa, p);
        switch (state) {
            case PUMPING -> {
                test.pump(fromS, fromPa, t, p);
                if (stroke != null) {
                    watchStroke(fromS, fromPa, t, p);
                }
            }
            case HOLDING -> {
                test.hold(live);
                if (test.plan.bleedS() == 0 && t >= test.holdToS - 1e-9) {
                    test.endHold(live);
                    finishTest(t);
                }
            }
            case BLEEDING -> {
                if (t >= test.bleedToS - 1e-9) {
                    finishTest(t);
                }
            }
            default -> {
                // Nothing happens while the line rests.
            }
        }
    }

    private void finishTest(double nowS) {
        unclosed = test;
        begin(closed.size() + 1, nowS);
    }

    private void beginStroke(double startS) {
        Hand hand = rig.hand();
        Hand.Irregularities odd = hand.irregularities();
        NormalDraws draws = live.draws();
        double slow = 1 + hand.slowing() * Math.min(1, live.pressurePa() / test.plan.targetPa());
        double pushS = hand.strokeS() * draws.factor(hand.spread()) * slow;
        fullM3 = rig.pump().strokeM3() * draws.factor(rig.pump().scatter());
        StrokeShape shape = hand.shapes().get(draws.below(hand.shapes().size()));
        double part = draws.uniform() < odd.halfStrokes() ? 0.3 + 0.5 * draws.uniform() : 1;
        double hesitationS = draws.uniform() < odd.hesitations() ? odd.hesitationLengthS() : 0;
        double hesitatesAt = 0.2 + 0.6 * draws.uniform();
        stroke = new HandStroke(startS, pushS * part, fullM3 * part, shape, hesitatesAt, hesitationS);
        pumpedBeforeM3 = live.plant().pumpedM3();
        offeredBeforeM3 = live.offeredM3();
        test.beginStroke(live.timeS());
        live.begin(stroke, fullM3);
    }

    private void watchStroke(double fromS, double fromPa, double t, double p) {
        if (!test.targetHit && p >= test.plan.targetPa()) {
            test.targetHit = true;
            double share = p > fromPa ? Math.max(0, (test.plan.targetPa() - fromPa) / (p - fromPa)) : 0;
            if (!rig.hand().finishesLastStroke()) {
                double reactionS =
                        rig.hand().reactionS() * live.draws().factor(rig.hand().spread());
                stroke.stopAt(Math.max(t, fromS + share * (t - fromS) + reactionS));
            }
        }
        if (t >= stroke.endS()) {
            endStroke(p);
        }
    }

    private void endStroke(double p) {
        double volume = live.plant().pumpedM3() - pumpedBeforeM3;
        double pushed = stroke.volumeByM3(stroke.endS());
        if (volume < 0.999 * (live.offeredM3() - offeredBeforeM3)) {
            test.reliefOpened = true;
        }
        test.strokes.add(new Truth.Stroke(stroke.startS(), stroke.endS(), volume, pushed < 0.999 * fullM3, p));
        test.lastEndS = stroke.endS();
        stroke = null;
        boolean rose = p > highestPa * (1 + NO_RISE);
        highestPa = Math.max(highestPa, p);
        strokesSinceRise = rose || highestPa == 0 ? 0 : strokesSinceRise + 1;
        if (test.targetHit
                || strokesSinceRise >= test.plan.stallStrokes()
                || test.strokes.size() >= test.plan.maxStrokes()) {
            state = State.HOLDING;
            test.beginHold(live);
            live.shutOff(test.lastEndS, test.plan.targetPa());
            return;
        }
        Hand hand = rig.hand();
        double slow = 1 + hand.slowing() * Math.min(1, p / test.plan.targetPa());
        double pauseS = hand.pauseS() * live.draws().factor(hand.spread()) * slow;
        if (live.draws().uniform() < hand.irregularities().breaks()) {
            pauseS += hand.irregularities().breakLengthS();
        }
        nextStrokeS = test.lastEndS + pauseS;
    }
}
