package org.holdtrace.command;

import java.util.OptionalDouble;
import org.holdtrace.quantity.Dimension;
import org.holdtrace.quantity.QuantityException;
import org.holdtrace.quantity.QuantityParser;

/**
 * Conditions a leak is to be stated at.
 *
 * @param pressurePa gauge pressure, Pa
 * @param temperatureK oil temperature, K
 */
record Conditions(OptionalDouble pressurePa, OptionalDouble temperatureK) {
    /** Those of the test itself. */
    static final Conditions NONE = new Conditions(OptionalDouble.empty(), OptionalDouble.empty());

    /** Reads "140 bar, 50 degC": a pressure, an oil temperature or both, in any order, parted by a comma. */
    static Conditions parse(String option, String text) throws UsageException {
        OptionalDouble pressurePa = OptionalDouble.empty();
        OptionalDouble temperatureK = OptionalDouble.empty();
        for (String part : text.split(",", -1)) {
            OptionalDouble pressure = quantity(part, Dimension.PRESSURE);
            OptionalDouble temperature = quantity(part, Dimension.TEMPERATURE);
            if (pressure.isPresent() && pressure.getAsDouble() > 0 && pressurePa.isEmpty()) {
                pressurePa = pressure;
            } else if (temperature.isPresent() && temperature.getAsDouble() > 0 && temperatureK.isEmpty()) {
                temperatureK = temperature;
            } else {
                throw new UsageException(option + ": \"" + text + "\" cannot be understood at \"" + part.strip()
                        + "\"; expected a pressure, an oil temperature or both, as in \"140 bar, 50 degC\"");
            }
        }
        return new Conditions(pressurePa, temperatureK);
    }

    private static OptionalDouble quantity(String text, Dimension dimension) {
        try {
            return OptionalDouble.of(QuantityParser.parse(text, dimension).value());
        } catch (QuantityException e) {
            return OptionalDouble.empty();
        }
    }
}
