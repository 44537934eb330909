package org.holdtrace.panel;

import java.util.HashSet;
import java.util.OptionalInt;
import java.util.Set;
import java.util.stream.Stream;
import org.holdtrace.adc.PiBoard;

/**
 * Where the panel is wired, BCM numbers of the pins; what is absent is left out.
 *
 * @param button to ground; the pull-up inside the computer is used
 * @param left lamp
 * @param middle lamp
 * @param right lamp
 * @param beeper one that beeps by itself when it gets a voltage
 * @param lampsLightWhenHigh false where they are wired to the supply and light when their pin is pulled down
 */
public record PanelPins(
        OptionalInt button,
        OptionalInt left,
        OptionalInt middle,
        OptionalInt right,
        OptionalInt beeper,
        boolean lampsLightWhenHigh) {
    public PanelPins {
        Set<Integer> used = new HashSet<>();
        for (OptionalInt pin : new OptionalInt[] {button, left, middle, right, beeper}) {
            if (pin.isPresent() && !PiBoard.hasGpio(pin.getAsInt())) {
                throw new IllegalArgumentException(PiBoard.GPIOS + ", not " + pin.getAsInt());
            }
            if (pin.isPresent() && !used.add(pin.getAsInt())) {
                throw new IllegalArgumentException("GPIO " + pin.getAsInt() + " is given two duties of the panel");
            }
        }
    }

    /** Whether a pin of the panel is that GPIO. */
    public boolean uses(int gpio) {
        return Stream.of(button, left, middle, right, beeper).anyMatch(pin -> pin.equals(OptionalInt.of(gpio)));
    }

    /** As in the wiring table of {@code docs/logger.md}: button 27, lamps 17, 22 and 23, beeper 24. */
    public static PanelPins usual() {
        return new PanelPins(
                OptionalInt.of(27),
                OptionalInt.of(17),
                OptionalInt.of(22),
                OptionalInt.of(23),
                OptionalInt.of(24),
                true);
    }
}
