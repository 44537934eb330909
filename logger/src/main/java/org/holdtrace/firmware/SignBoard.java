package org.holdtrace.firmware;

import org.holdtrace.acquire.LiveLeak.Verdict;
import org.holdtrace.panel.PanelSign;
import org.holdtrace.trace.Phase;

/** What the technician is told: the panel's sign, and the same in words. */
final class SignBoard {
    private SignBoard() {}

    /**
     * The sign for what is the case. Where no session runs, no sign may look as if a hold were being recorded: somebody may
     * have ended it by a press too many.
     *
     * @param recordingFault whether samples are at stake because of the disk
     * @param sensorFault whether what is measured cannot be believed
     * @param running whether a session runs
     */
    static PanelSign sign(boolean recordingFault, boolean sensorFault, boolean running, Phase phase, Verdict verdict) {
        if (recordingFault) {
            return PanelSign.RECORDING_FAULT;
        }
        if (sensorFault) {
            return PanelSign.SENSOR_FAULT;
        }
        if (!running && phase != Phase.BLEED_OFF) {
            return PanelSign.READY;
        }
        return switch (phase) {
            case REST -> PanelSign.REST;
            case PUMP_UP -> PanelSign.KEEP_PUMPING;
            case PLATEAU -> PanelSign.STALLED;
            case SETTLING -> PanelSign.SETTLING;
            case HOLD -> verdict == Verdict.WAIT ? PanelSign.HOLDING : PanelSign.ENOUGH;
            case BLEED_OFF -> PanelSign.LETTING_OFF;
        };
    }

    /**
     * Whether no more waiting is needed: never said of a line that is let off or at rest, nor where what was measured is not
     * recorded, where it could be misread.
     */
    static boolean enough(PanelSign sign) {
        return sign == PanelSign.ENOUGH;
    }

    /** The same in words. */
    static String advice(PanelSign sign, Verdict verdict) {
        return switch (sign) {
            case READY -> "nothing is being recorded: pump, or start a session";
            case REST -> "recording, at rest: pump";
            case KEEP_PUMPING -> "keep pumping";
            case STALLED -> "pressure no longer rises: a few even strokes more, then stop and shut the valve";
            case SETTLING -> "stop pumping, shut the valve, wait: the line settles";
            case HOLDING -> "holding: wait";
            case ENOUGH ->
                verdict == Verdict.NO_MORE_TO_LEARN
                        ? "waiting longer would not decide it: let the pressure off as the maker says"
                        : "enough: let the pressure off as the maker says";
            case LETTING_OFF -> "pressure is being let off: wait until none is left before anything is opened";
            case SENSOR_FAULT -> "what is measured cannot be believed: see the fault";
            case RECORDING_FAULT -> "the session cannot be written: see the fault";
        };
    }
}
