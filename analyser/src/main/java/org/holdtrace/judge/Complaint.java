package org.holdtrace.judge;

import java.util.Optional;
import java.util.OptionalDouble;
import org.holdtrace.quantity.Quantity;

/**
 * What is complained of.
 *
 * @param actuator which cylinder, by name
 * @param direction which way it drifts
 * @param speedMPerS how fast its rod moves, m/s
 * @param loadPressurePa pressure the load makes on the side that carries it, Pa
 * @param rodOutM how far the rod is out when it drifts, m
 * @param oilTemperatureK oil temperature at which it drifts, K
 */
public record Complaint(
        String actuator,
        Direction direction,
        Optional<Quantity> speedMPerS,
        Optional<Quantity> loadPressurePa,
        OptionalDouble rodOutM,
        OptionalDouble oilTemperatureK) {

    /** Which way a rod drifts. */
    public enum Direction {
        /** The rod goes in: the side without rod carries the load. */
        RETRACTS("retracts"),
        /** The rod comes out: the rod side carries the load. */
        EXTENDS("extends");

        private final String label;

        Direction(String label) {
            this.label = label;
        }

        /** The word used in case files and output. */
        public String label() {
            return label;
        }
    }

    /** The node of {@code cylinder} that carries the load. */
    public String loadNode(Cylinder cylinder) {
        return direction == Direction.RETRACTS ? cylinder.boreNode() : cylinder.rodNode();
    }
}
