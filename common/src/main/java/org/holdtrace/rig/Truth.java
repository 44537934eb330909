package org.holdtrace.rig;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.holdtrace.leak.Law;
import org.holdtrace.trace.Phase;
import org.holdtrace.trace.PhaseSpan;

/**
 * What a simulated session really was.
 *
 * @param rig all true parameters
 * @param tests what happened in each hold test, in order
 */
public record Truth(Rig rig, List<Test> tests) {
    public Truth {
        tests = List.copyOf(tests);
    }

    /** True leak of component and line together at a gauge pressure, m³/s of oil at that pressure. */
    public double leakM3PerS(double pressurePa) {
        return rig.leaks().flow(pressurePa);
    }

    /** True leak of the component alone, likewise. */
    public double componentLeakM3PerS(double pressurePa) {
        return rig.leaks().component().flow(pressurePa);
    }

    /** The law component and line together follow. */
    public Law law() {
        return rig.leaks().law();
    }

    /** True isothermal compliance at a gauge pressure with the air left when the hold of test {@code index} began. */
    public double complianceM3PerPa(int index, double pressurePa) {
        return new LineCompliance(rig.fill(), rig.walls(), tests.get(index).undissolvedAirM3()).isothermal(pressurePa);
    }

    /** The compliance a fast stroke sees, likewise. */
    public double fastComplianceM3PerPa(int index, double pressurePa) {
        return new LineCompliance(rig.fill(), rig.walls(), tests.get(index).undissolvedAirM3()).isentropic(pressurePa);
    }

    /**
     * A stroke as it was made.
     *
     * @param startS its start, s
     * @param endS its end, s
     * @param volumeM3 what went into the line, m³ at atmospheric pressure
     * @param cutShort whether it was ended before its full volume
     * @param endPa true pressure at its end, Pa; 0 while a drained line fills
     */
    public record Stroke(double startS, double endS, double volumeM3, boolean cutShort, double endPa) {}

    /**
     * A hold test as it was.
     *
     * @param number 1 for the first
     * @param phases what happened when; settling ends where nine tenths of the heat that was left at the last stroke's end
     *     have gone, by convention
     * @param strokes every stroke, in order, make-up included
     * @param reachedTarget whether the hand stopped because the target was reached
     * @param pumpReliefOpened whether the pump's own relief let oil past
     * @param peakPa highest true pressure, Pa
     * @param holdEndPa true pressure at the end of the hold, Pa
     * @param plateauMeanPa mean true pressure over the plateau, Pa
     * @param leakedInHoldM3 oil that leaked from the last stroke's end to the end of the hold, m³ at atmospheric pressure
     * @param bledVolumeM3 oil caught from the end of the hold until the next first stroke or the end of the recording, m³
     *     at atmospheric pressure
     * @param undissolvedAirM3 air not dissolved when the last stroke ended, m³ at atmospheric pressure
     */
    public record Test(
            int number,
            List<PhaseSpan> phases,
            List<Stroke> strokes,
            boolean reachedTarget,
            boolean pumpReliefOpened,
            double peakPa,
            double holdEndPa,
            OptionalDouble plateauMeanPa,
            double leakedInHoldM3,
            double bledVolumeM3,
            double undissolvedAirM3) {
        public Test {
            phases = List.copyOf(phases);
            strokes = List.copyOf(strokes);
        }

        /** The stretch of {@code phase}, where it occurred. */
        public Optional<PhaseSpan> phase(Phase phase) {
            return phases.stream().filter(span -> span.phase() == phase).findFirst();
        }
    }
}
