package org.holdtrace.firmware;

import java.util.Locale;
import org.holdtrace.acquire.Sampler;
import org.holdtrace.adc.InputFault;

/** Tells when the converter cannot be read, and when samples were lost between reading and use. One thread. */
final class BusCheck {
    static final String BUS = InputFault.BUS.label();
    private static final String CONVERTER = "converter";
    static final String OVERRUN = "sampler.overrun";
    private static final String HANGS =
            "a reading does not come to its end: the bus hangs; check its two wires and" + " the converter's supply";

    /** A fault stays for this time after the last reading that failed, ns: a bus that fails now and then is one fault. */
    private static final long STAYS_NS = 1_000_000_000;

    /** A tick's readings take some ms; so long is no busy computer but a bus that hangs. */
    private static final long HANGS_NS = 500_000_000;

    private final Sampler sampler;
    private long failed;
    private long failedNs;
    private long overruns;
    private long overrunNs;

    BusCheck(Sampler sampler) {
        this.sampler = sampler;
    }

    void tell(FaultBoard faults, long nowNs) {
        long now = sampler.failedReads();
        long atItNs = sampler.atItNs();
        if (atItNs > HANGS_NS) {
            failedNs = nowNs;
            faults.raise(CONVERTER, new FaultBoard.Fault(BUS, HANGS, false, true), nowNs);
        } else if (now != failed || sampler.isFailing()) {
            failed = now;
            failedNs = nowNs;
            faults.raise(CONVERTER, new FaultBoard.Fault(BUS, sampler.lastFailure(), false, true), nowNs);
        } else if (nowNs - failedNs > STAYS_NS) {
            faults.clear(CONVERTER, BUS, nowNs);
        }
        long lost = sampler.overruns();
        if (lost != overruns) {
            overruns = lost;
            overrunNs = nowNs;
            faults.raise(
                    CONVERTER,
                    new FaultBoard.Fault(
                            OVERRUN,
                            String.format(Locale.ROOT, "%d samples were lost: the computer could not keep up", lost),
                            false,
                            true),
                    nowNs);
        } else if (nowNs - overrunNs > STAYS_NS) {
            faults.clear(CONVERTER, OVERRUN, nowNs);
        }
    }
}
