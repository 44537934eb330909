package org.holdtrace.trace;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * One pump-up and what follows until the pressure is let off, as the phase detector found it.
 *
 * @param number 1 for the first hold test of the session
 * @param phases in order of their start; the plateau, if any, lies inside the pump-up
 * @param strokes every stroke that raised pressure, in order; empty where the trace begins pumped up
 * @param rest what the rest before this test, or after its let-off, told of zero and noise
 * @param plateauMeanPa mean of pressure (zero taken off) over the plateau, Pa
 */
public record HoldTest(
        int number, List<PhaseSpan> phases, List<Stroke> strokes, RestLevel rest, OptionalDouble plateauMeanPa) {
    public HoldTest {
        phases = List.copyOf(phases);
        strokes = List.copyOf(strokes);
    }

    /** The stretch of {@code phase}, where it occurred. */
    public Optional<PhaseSpan> phase(Phase phase) {
        for (PhaseSpan span : phases) {
            if (span.phase() == phase) {
                return Optional.of(span);
            }
        }
        return Optional.empty();
    }

    /**
     * What rest tells of the transducer.
     *
     * @param zeroPa reading at no pressure, Pa; 0 where there was no rest
     * @param noisePa standard deviation of one sample, Pa; from the hold where there was no rest
     * @param fromRest whether there was a rest to learn from, before the test or after its let-off
     */
    public record RestLevel(double zeroPa, double noisePa, boolean fromRest) {}
}
