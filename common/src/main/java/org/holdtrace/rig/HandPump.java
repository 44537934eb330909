package org.holdtrace.rig;

import org.holdtrace.quantity.Require;

/**
 * The hand pump. Behind its check valve nothing flows back but what {@link ShutOff} tells of.
 *
 * <p>Its chamber holds the dead volume and the stroke when a push begins. All of it is compressed to the pressure in the
 * line before the check valve opens; the dead volume stays behind at that pressure. A full stroke v delivers
 * {@code v - (V_d + v) p/K} at line pressure, K the secant modulus of the oil, air-free and as warm as its surroundings.
 *
 * @param strokeM3 volume of a full stroke at atmospheric pressure, what it delivers against nothing, m³
 * @param scatter relative standard deviation from stroke to stroke
 * @param lossPerPa share of a stroke lost per pressure to slip, 1/Pa
 * @param reliefPa pressure its own relief valve opens at, Pa; infinite for none
 * @param deadVolumeM3 V_d, what is left of the chamber at the end of a full stroke, m³, at most 20 strokes; 0: the chamber
 *     before the check valve is left out, and oil is delivered from the first moment of a push
 * @param shutOff how the valve behind it is shut after the last push
 */
public record HandPump(
        double strokeM3, double scatter, double lossPerPa, double reliefPa, double deadVolumeM3, ShutOff shutOff) {
    public HandPump {
        Require.positive(strokeM3, "pump stroke", "m3");
        Require.within(scatter, 0, 0.3, "scatter of the stroke", "");
        Require.within(lossPerPa, 0, 1e-8, "loss of stroke", "1/Pa");
        if (!(reliefPa > 0)) {
            throw new IllegalArgumentException("the pump's relief must open above 0 Pa, was " + reliefPa);
        }
        Require.within(deadVolumeM3 / strokeM3, 0, 20, "dead volume of the pump over its stroke", "");
    }

    /** A pump without dead volume whose check valve is tight. */
    public HandPump(double strokeM3, double scatter, double lossPerPa, double reliefPa) {
        this(strokeM3, scatter, lossPerPa, reliefPa, 0, ShutOff.none());
    }

    /** A pump that delivers the same with every stroke at every pressure. */
    public static HandPump exact(double strokeM3) {
        return new HandPump(strokeM3, 0, 0, Double.POSITIVE_INFINITY);
    }
}
