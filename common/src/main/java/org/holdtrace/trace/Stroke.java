package org.holdtrace.trace;

/**
 * One push of the hand pump that raised the pressure.
 *
 * @param startS when pressure began to rise, s
 * @param endS when it stopped rising and the pump's check valve shut, s
 */
public record Stroke(double startS, double endS) {
    public Stroke {
        if (!(endS >= startS)) {
            throw new IllegalArgumentException("a stroke ends at " + endS + " s before it starts at " + startS + " s");
        }
    }
}
