package org.holdtrace.adc;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;

/**
 * Tells from the counts of one input, within a second, what is wrong with it, and when it is well again. Takes no reading
 * away and adds none. To be fed by the thread that samples; allocates nothing while nothing changes. {@link #words} may be
 * asked by that thread only.
 */
public final class InputWatch {
    /** One code for so long, and so often, is worth a proof; a quiet input gives it too. */
    private static final long SAME_NS = 400_000_000;

    private static final int SAME_READINGS = 20;

    /** A proof costs some conversions; while the code stays the same it is asked for once a second. */
    private static final long PROOF_AGAIN_NS = 1_000_000_000;

    /** 0.5 %: moves a ratiometric reading by as much, as large as a good transducer's own error. */
    private static final double SUPPLY_MAY_MOVE = 0.005;

    /** Hears of faults, on the thread that samples. */
    public interface Listener {
        /** A fault has begun; {@code text} says it in words. */
        void raised(long timeNs, SensorInput input, InputFault fault, String text);

        /** It is over. */
        void cleared(long timeNs, SensorInput input, InputFault fault, String text);
    }

    private final SensorInput input;
    private final Listener listener;
    private final Map<InputFault, FaultLatch> latches = new EnumMap<>(InputFault.class);
    private final Map<InputFault, String> words = new EnumMap<>(InputFault.class);
    private final double voltsPerCount;
    private final int lowestCount;
    private final int highestCount;
    private final Signal.Limits limits;
    private double supplyVolts;
    private double nominalSupplyVolts;

    private int code;
    private int same;
    private long sameSinceNs;
    private long provedNs;
    private boolean stuck;
    private long followedNs = Long.MIN_VALUE;

    /**
     * Watches {@code input} on {@code converter}.
     *
     * @param nominalSupplyVolts what the transducers should get, V
     */
    public InputWatch(SensorInput input, Converter converter, double nominalSupplyVolts, Listener listener) {
        this.input = input;
        this.listener = listener;
        this.nominalSupplyVolts = nominalSupplyVolts;
        supplyVolts = nominalSupplyVolts;
        voltsPerCount = converter.voltsPerCount(input.pin());
        lowestCount = converter.lowestCount(input.pin());
        highestCount = converter.highestCount(input.pin());
        limits = input.signal().limits();
        for (InputFault fault : InputFault.values()) {
            latches.put(fault, new FaultLatch(!input.fast()));
        }
    }

    /** What is watched. */
    public SensorInput input() {
        return input;
    }

    /** The supply by which this session is calibrated, V. */
    public void calibratedBy(double volts) {
        supplyVolts = volts;
    }

    /** A count that was read. */
    public void sample(long timeNs, int count) {
        settle(timeNs, InputFault.BUS, false, count);
        follow(timeNs, count);
        double signal = input.signalSize(count * voltsPerCount, supplyVolts);
        boolean broken = isBroken(count);
        // At 0 V a converter of positive voltages only is at its end and right.
        boolean atEnd = count >= highestCount || (lowestCount < 0 && count <= lowestCount);
        settle(timeNs, InputFault.WIRE, broken, count);
        settle(timeNs, InputFault.SATURATED, atEnd && !broken, count);
        boolean outside = signal < limits.doubtfulBelow() || signal > limits.doubtfulAbove();
        settle(timeNs, InputFault.RANGE, outside && !broken && !atEnd, count);
        if (input.isSupply()) {
            boolean low = signal < SensorInput.lowestSupplyVolts(nominalSupplyVolts);
            settle(timeNs, InputFault.SUPPLY_LOW, low, count);
            boolean moved = Math.abs(signal / supplyVolts - 1) > SUPPLY_MAY_MOVE;
            settle(timeNs, InputFault.SUPPLY_MOVED, moved && !low, count);
        }
    }

    /** Whether {@code count} tells of a broken wire and not of what is measured, be it for one sample only. */
    public boolean isBroken(int count) {
        double signal = input.signalSize(count * voltsPerCount, supplyVolts);
        return signal <= limits.brokenBelow() || signal >= limits.brokenAbove();
    }

    /** A reading that failed. */
    public void failed(long timeNs, AdcException why) {
        if (latches.get(InputFault.BUS).bad(timeNs)) {
            raise(timeNs, InputFault.BUS, input.name() + ": no reading: " + why.getMessage());
        }
    }

    private void settle(long timeNs, InputFault fault, boolean isBad, int count) {
        FaultLatch latch = latches.get(fault);
        if (isBad) {
            if (latch.bad(timeNs)) {
                raise(timeNs, fault, say(fault, count));
            }
        } else if (latch.good(timeNs)) {
            clear(timeNs, fault);
        }
    }

    private void follow(long timeNs, int count) {
        if (same == 0 || count != code) {
            code = count;
            same = 1;
            sameSinceNs = timeNs;
            followedNs = Long.MIN_VALUE;
            provedNs = timeNs - PROOF_AGAIN_NS;
            if (stuck) {
                unstick(timeNs);
            }
        } else if (same < Integer.MAX_VALUE) {
            same++;
        }
    }

    /**
     * Whether one code has come for so long that the converter should show that it follows. Then
     * {@link Converter#follows} is to be asked and its answer handed to {@link #proved}.
     */
    public boolean wantsProof(long timeNs) {
        return input.fast()
                && same >= SAME_READINGS
                && timeNs - sameSinceNs >= SAME_NS
                && timeNs - provedNs >= PROOF_AGAIN_NS;
    }

    /** The code that has come for so long. */
    public int code() {
        return code;
    }

    /** Whether the code that comes now came at {@code sinceNs} too, and was proved since to be no hanging converter's. */
    public boolean followedSince(long sinceNs) {
        return followedNs > sinceNs;
    }

    /** What {@link Converter#follows} said. */
    public void proved(long timeNs, boolean follows) {
        provedNs = timeNs;
        followedNs = follows ? timeNs : followedNs;
        if (follows && stuck) {
            unstick(timeNs);
        } else if (!follows && !stuck) {
            stuck = true;
            raise(timeNs, InputFault.STUCK, say(InputFault.STUCK, code));
        }
    }

    private void unstick(long timeNs) {
        stuck = false;
        clear(timeNs, InputFault.STUCK);
    }

    private void raise(long timeNs, InputFault fault, String text) {
        words.put(fault, text);
        listener.raised(timeNs, input, fault, text);
    }

    private void clear(long timeNs, InputFault fault) {
        words.remove(fault);
        listener.cleared(timeNs, input, fault, input.name() + ": " + fault.label() + " is over");
    }

    private String say(InputFault fault, int count) {
        double volts = count * voltsPerCount;
        String signal = input.signal().say(input.signalSize(volts, supplyVolts));
        String what = switch (fault) {
            case WIRE -> "wire broken or shorted, or transducer without supply: " + signal;
            case SATURATED -> "at the end of what can be read: " + signal;
            case STUCK -> "the converter hangs at code " + count;
            case RANGE -> "outside the transducer's range: " + signal;
            case SUPPLY_LOW ->
                "too low: " + signal + ", expected at least "
                        + volts(SensorInput.lowestSupplyVolts(nominalSupplyVolts));
            case SUPPLY_MOVED -> "moved: " + signal + ", the session is calibrated by " + volts(supplyVolts);
            case BUS -> "no reading";
        };
        return input.name() + ": " + what;
    }

    private static String volts(double volts) {
        return String.format(Locale.ROOT, "%.3f V", volts);
    }

    /** Whether {@code fault} is there now. */
    public boolean has(InputFault fault) {
        return fault == InputFault.STUCK ? stuck : latches.get(fault).isActive();
    }

    /** What is wrong now, in words; without mere doubts. */
    public List<String> words() {
        List<String> now = new ArrayList<>();
        words.forEach((fault, text) -> {
            if (!fault.isDoubt()) {
                now.add(text);
            }
        });
        return now;
    }
}
