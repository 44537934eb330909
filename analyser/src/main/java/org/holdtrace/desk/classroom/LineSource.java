package org.holdtrace.desk.classroom;

import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import org.holdtrace.leak.LeakLaw;
import org.holdtrace.rig.LiveRig;

/**
 * Two simulated lines, alike and pumped by the same hand, one of which the instructor breaks. Keys are taken on the
 * event thread and carried out on the line's own.
 */
final class LineSource extends TimedSource {
    private static final long SEED = 4;

    private final LiveRig soundRig = new LiveRig(TrainingLine.rig(), new SplittableRandom(SEED));
    private final LiveRig brokenRig = new LiveRig(TrainingLine.rig(), new SplittableRandom(SEED));
    private final Past soundPast = new Past();
    private final Past brokenPast = new Past();
    private final Lane sound = new Lane("sound", Verdicts.soFar(TrainingLine::setup, soundPast));
    private final Lane broken = new Lane("", Verdicts.soFar(TrainingLine::setup, brokenPast));
    private volatile Fault fault = Fault.SPOOL;
    private volatile int badness = 1;
    private volatile boolean blanked;
    private volatile boolean open;
    private double dueS;

    LineSource() {
        super("training-line");
        soundPast.change(soundRig.timeS(), Fault.SOUND.law(Fault.SLIGHT));
        apply();
    }

    @Override
    public List<Lane> lanes() {
        return List.of(sound, broken);
    }

    @Override
    public String title() {
        return "simulated line, nothing real is under pressure" + (open ? " · valve open" : "") + trouble();
    }

    @Override
    public List<Key> keys() {
        List<Key> keys = new ArrayList<>();
        keys.add(new Key("SPACE", "Space", "stroke", this::stroke));
        keys.add(new Key("L", "L", "let off / shut", this::letOffOrShut));
        keys.add(new Key("B", "B", "blank off", this::blank));
        for (Fault each : Fault.values()) {
            keys.add(new Key(each.key(), each.key(), each.words(), () -> breakIt(each)));
        }
        keys.add(new Key("W", "W", "worse", this::worsen));
        return keys;
    }

    @Override
    void tick(double passedS) {
        dueS += passedS;
        int count = (int) (dueS * TrainingLine.RATE_HZ);
        dueS -= count / TrainingLine.RATE_HZ;
        feed(soundRig, sound, count);
        feed(brokenRig, broken, count);
        tellChanged();
    }

    private static void feed(LiveRig rig, Lane lane, int count) {
        double[] timeS = new double[count];
        double[] pressurePa = new double[count];
        for (int i = 0; i < count; i++) {
            rig.advance(1 / TrainingLine.RATE_HZ);
            timeS[i] = rig.timeS();
            pressurePa[i] = rig.readingPa();
        }
        lane.accept(timeS, pressurePa, count);
    }

    private void stroke() {
        betweenTicks(() -> {
            if (!open) {
                soundRig.stroke();
                brokenRig.stroke();
            }
        });
    }

    private void letOffOrShut() {
        open = !open;
        boolean now = open;
        betweenTicks(() -> {
            for (LiveRig rig : List.of(soundRig, brokenRig)) {
                if (now) {
                    rig.letOff();
                } else {
                    rig.shut();
                }
            }
        });
    }

    private void blank() {
        blanked = !blanked;
        apply();
    }

    private void breakIt(Fault next) {
        fault = next;
        blanked = false;
        apply();
    }

    private void worsen() {
        badness = badness == Fault.BAD ? Fault.SLIGHT : badness + 1;
        apply();
    }

    private void apply() {
        LeakLaw law = law();
        broken.setName(blanked ? "blanked off" : fault.words(badness));
        betweenTicks(() -> {
            brokenRig.setLeaks(TrainingLine.leaks(law));
            brokenPast.change(brokenRig.timeS(), law);
        });
    }

    private LeakLaw law() {
        return blanked ? LeakLaw.none() : fault.law(badness);
    }
}
