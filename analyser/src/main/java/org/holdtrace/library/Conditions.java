package org.holdtrace.library;

import java.util.OptionalDouble;
import org.holdtrace.quantity.Dimension;
import org.holdtrace.quantity.Quantity;
import org.holdtrace.quantity.QuantityException;
import org.holdtrace.quantity.QuantityParser;

/**
 * Conditions a leak is to be stated at.
 *
 * @param pressurePa gauge pressure, Pa
 * @param temperatureK oil temperature, K
 */
public record Conditions(OptionalDouble pressurePa, OptionalDouble temperatureK) {
    private static final double HIGHEST_PA = 1e9;
    private static final double LOWEST_K = 193;
    private static final double HIGHEST_K = 523.15;

    /** Those of the test itself. */
    public static final Conditions NONE = new Conditions(OptionalDouble.empty(), OptionalDouble.empty());

    /**
     * Reads "140 bar, 50 degC": a pressure, an oil temperature or both, in any order, parted by a comma.
     *
     * @throws QuantityException where it is neither, and what was expected
     */
    public static Conditions parse(String text) throws QuantityException {
        OptionalDouble pressurePa = OptionalDouble.empty();
        OptionalDouble temperatureK = OptionalDouble.empty();
        for (String part : text.split(",", -1)) {
            OptionalDouble pressure = quantity(part, Dimension.PRESSURE);
            OptionalDouble temperature = quantity(part, Dimension.TEMPERATURE);
            if (within(pressure, 0, HIGHEST_PA) && pressurePa.isEmpty()) {
                pressurePa = pressure;
            } else if (within(temperature, LOWEST_K, HIGHEST_K) && temperatureK.isEmpty()) {
                temperatureK = temperature;
            } else if (pressure.isPresent() && pressurePa.isEmpty()) {
                throw new QuantityException(
                        quoted(part) + " is not possible",
                        "a pressure above 0 and up to 10 000 bar, without an uncertainty");
            } else if (temperature.isPresent() && temperatureK.isEmpty()) {
                throw new QuantityException(
                        quoted(part) + " is not possible",
                        "an oil temperature from -80 to 250 degC, without an uncertainty");
            } else {
                throw new QuantityException(
                        quoted(text) + " cannot be understood at " + quoted(part),
                        "a pressure, an oil temperature or both, as in \"140 bar, 50 degC\"");
            }
        }
        return new Conditions(pressurePa, temperatureK);
    }

    private static String quoted(String text) {
        return "\"" + text.strip() + "\"";
    }

    private static boolean within(OptionalDouble value, double above, double highest) {
        return value.isPresent() && value.getAsDouble() > above && value.getAsDouble() <= highest;
    }

    /** NaN where there is an uncertainty: conditions are asked for, not measured. */
    private static OptionalDouble quantity(String text, Dimension dimension) {
        try {
            Quantity quantity = QuantityParser.parse(text, dimension);
            return OptionalDouble.of(quantity.standardUncertainty() > 0 ? Double.NaN : quantity.value());
        } catch (QuantityException e) {
            return OptionalDouble.empty();
        }
    }
}
