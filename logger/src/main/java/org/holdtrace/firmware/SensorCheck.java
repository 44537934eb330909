package org.holdtrace.firmware;

import java.util.concurrent.CompletableFuture;
import org.holdtrace.acquire.Sampler;
import org.holdtrace.adc.Converter;
import org.holdtrace.adc.InputFault;
import org.holdtrace.adc.InputWatch;
import org.holdtrace.adc.SensorInput;

/**
 * Looks after one input, and brings what is wrong with it to the fault board. One thread.
 *
 * <p>A converter that hangs gives the code of the fast input for a slow one as well, which would then look broken. So a
 * slow input's reading of the very code that the fast one gives is held back until the converter has shown that it follows.
 */
final class SensorCheck implements InputWatch.Listener {
    /** So near to 0 a hang cannot be told, and two inputs without supply give one code. */
    private static final int NEAR_ZERO_COUNTS = 16;

    private static final long NONE = Long.MIN_VALUE;

    private final SensorInput input;
    private final InputWatch watch;
    private final Sampler sampler;
    private final FaultBoard faults;
    /** The fast input; null for itself. */
    private final SensorCheck fast;

    private CompletableFuture<Boolean> proof;
    private long heldNs = NONE;
    private int held;

    SensorCheck(
            SensorInput input,
            Converter converter,
            double nominalVolts,
            Sampler sampler,
            FaultBoard faults,
            SensorCheck fast) {
        this.input = input;
        this.sampler = sampler;
        this.faults = faults;
        this.fast = input.fast() ? null : fast;
        watch = new InputWatch(input, converter, nominalVolts, this);
    }

    /** The supply the calibrations go by, V. */
    void calibratedBy(double supplyVolts) {
        watch.calibratedBy(supplyVolts);
    }

    /** Whether {@code count} is of what is measured; not where it tells of a broken wire. */
    boolean measures(int count) {
        return !watch.isBroken(count);
    }

    /** Takes samples, from 0 to before {@code size}. */
    void samples(long[] timeNs, int[] counts, int size) {
        for (int i = 0; i < size; i++) {
            if (fast != null && fast.gives(counts[i])) {
                heldNs = timeNs[i];
                held = counts[i];
            } else {
                heldNs = NONE;
                watch.sample(timeNs[i], counts[i]);
            }
        }
        if (size > 0) {
            prove(timeNs[size - 1]);
        }
    }

    private boolean gives(int count) {
        return watch.code() == count && Math.abs(count) > NEAR_ZERO_COUNTS;
    }

    /** Believes what was held back once the converter has shown that it follows, and forgets it where it did not hang. */
    void settleHeldBack() {
        if (heldNs != NONE && fast.watch.followedSince(heldNs)) {
            watch.sample(heldNs, held);
            heldNs = NONE;
        } else if (heldNs != NONE && !fast.gives(held)) {
            heldNs = NONE;
        }
    }

    private void prove(long nowNs) {
        if (proof != null && proof.isDone()) {
            watch.proved(nowNs, proof.getNow(true));
            proof = null;
        } else if (proof == null && watch.wantsProof(nowNs)) {
            proof = sampler.probe(input.pin(), watch.code());
        }
    }

    @Override
    public void raised(long timeNs, SensorInput of, InputFault fault, String text) {
        faults.raise(of.name(), new FaultBoard.Fault(fault.label(), text, false, !fault.isDoubt()), timeNs);
        if (fault == InputFault.STUCK) {
            sampler.requestRestart();
        }
    }

    @Override
    public void cleared(long timeNs, SensorInput of, InputFault fault, String text) {
        faults.clear(of.name(), fault.label(), timeNs);
    }
}
