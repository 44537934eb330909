package org.holdtrace.command;

import java.util.Locale;
import java.util.OptionalDouble;

/**
 * Conditions a leak is to be stated at.
 *
 * @param pressurePa gauge pressure, Pa
 * @param temperatureK oil temperature, K
 */
record Conditions(OptionalDouble pressurePa, OptionalDouble temperatureK) {
    /** Those of the test itself. */
    static final Conditions NONE = new Conditions(OptionalDouble.empty(), OptionalDouble.empty());

    /** Reads "140 bar, 50 degC": a pressure, a temperature or both, in any order, parted by a comma. */
    static Conditions parse(String option, String text) throws UsageException {
        OptionalDouble pressurePa = OptionalDouble.empty();
        OptionalDouble temperatureK = OptionalDouble.empty();
        for (String part : text.split(",", -1)) {
            String quantity = part.strip();
            int space = quantity.indexOf(' ');
            double value = number(space < 0 ? "" : quantity.substring(0, space));
            double inPa = value
                    * pascals(space < 0 ? "" : quantity.substring(space + 1).strip());
            if (Double.isFinite(inPa) && inPa > 0 && pressurePa.isEmpty()) {
                pressurePa = OptionalDouble.of(inPa);
            } else if (Double.isFinite(value) && quantity.endsWith(" degC") && temperatureK.isEmpty()) {
                temperatureK = OptionalDouble.of(value + 273.15);
            } else {
                throw new UsageException(option + ": \"" + text
                        + "\" cannot be understood; expected a pressure, an oil temperature or both, as in"
                        + " \"140 bar, 50 degC\"");
            }
        }
        return new Conditions(pressurePa, temperatureK);
    }

    private static double number(String text) {
        try {
            return Double.parseDouble(text);
        } catch (NumberFormatException e) {
            return Double.NaN;
        }
    }

    private static double pascals(String unit) {
        return switch (unit.toLowerCase(Locale.ROOT)) {
            case "bar" -> 1e5;
            case "psi" -> 6894.757293168;
            case "kpa" -> 1e3;
            case "mpa" -> 1e6;
            case "pa" -> 1;
            default -> Double.NaN;
        };
    }
}
