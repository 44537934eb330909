package org.holdtrace.rig;

import org.holdtrace.quantity.Require;

/**
 * The hand pump. Behind its check valve, nothing flows back.
 *
 * @param strokeM3 volume of a full stroke at atmospheric pressure, m³
 * @param scatter relative standard deviation from stroke to stroke
 * @param lossPerPa share of a stroke lost per pressure to slip and to compression in the pump, 1/Pa
 * @param reliefPa pressure its own relief valve opens at, Pa; infinite for none
 */
public record HandPump(double strokeM3, double scatter, double lossPerPa, double reliefPa) {
    public HandPump {
        Require.positive(strokeM3, "pump stroke", "m3");
        Require.within(scatter, 0, 0.3, "scatter of the stroke", "");
        Require.within(lossPerPa, 0, 1e-8, "loss of stroke", "1/Pa");
        if (!(reliefPa > 0)) {
            throw new IllegalArgumentException("the pump's relief must open above 0 Pa, was " + reliefPa);
        }
    }

    /** A pump that delivers the same with every stroke at every pressure. */
    public static HandPump exact(double strokeM3) {
        return new HandPump(strokeM3, 0, 0, Double.POSITIVE_INFINITY);
    }
}
