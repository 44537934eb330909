package org.holdtrace.firmware;

import java.util.concurrent.CompletableFuture;
import org.holdtrace.acquire.Sampler;
import org.holdtrace.adc.Converter;
import org.holdtrace.adc.InputFault;
import org.holdtrace.adc.InputWatch;
import org.holdtrace.adc.SensorInput;

/** Looks after one input, and brings what is wrong with it to the fault board. One thread. */
final class SensorCheck implements InputWatch.Listener {
    private final SensorInput input;
    private final InputWatch watch;
    private final Sampler sampler;
    private final FaultBoard faults;
    private CompletableFuture<Boolean> proof;

    SensorCheck(SensorInput input, Converter converter, double nominalVolts, Sampler sampler, FaultBoard faults) {
        this.input = input;
        this.sampler = sampler;
        this.faults = faults;
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
            watch.sample(timeNs[i], counts[i]);
        }
        if (size > 0) {
            prove(timeNs[size - 1]);
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
