package org.holdtrace.judge;

import java.util.Locale;
import java.util.OptionalDouble;
import org.holdtrace.quantity.Dimension;
import org.holdtrace.quantity.Quantity;
import org.holdtrace.quantity.QuantityParser;

/** Reads a limit as a case file states it: the maker's figure, or a published standard. */
final class LimitText {
    /** What is understood, for messages. */
    static final String EXAMPLES =
            "\"15 cm3/min\", \"15 cm3/min at 120 bar\", \"15 cm3/min at 120 bar, 40 degC\" or a standard: "
                    + StandardLimits.EXAMPLES;

    private LimitText() {}

    /** Throws an {@link IllegalArgumentException} that says what cannot be read. */
    static Limit parse(String text) {
        String stripped = text.strip();
        if (!stripped.isEmpty() && "0123456789.+-−".indexOf(stripped.charAt(0)) >= 0) {
            return ofMaker(stripped);
        }
        return StandardLimits.parse(stripped);
    }

    private static Limit ofMaker(String text) {
        int at = text.toLowerCase(Locale.ROOT).indexOf(" at ");
        String flow = at < 0 ? text : text.substring(0, at);
        OptionalDouble pressure = OptionalDouble.empty();
        OptionalDouble temperature = OptionalDouble.empty();
        if (at >= 0) {
            String[] conditions = text.substring(at + 4).split(",", -1);
            pressure = OptionalDouble.of(value(conditions[0], Dimension.PRESSURE));
            if (conditions.length > 1) {
                temperature = OptionalDouble.of(value(conditions[1], Dimension.TEMPERATURE));
            }
            if (conditions.length > 2) {
                throw new IllegalArgumentException("\"" + text + "\" states more than a pressure and a temperature");
            }
        }
        return Limit.ofMaker(value(flow, Dimension.FLOW), pressure, temperature);
    }

    private static double value(String text, Dimension dimension) {
        Quantity quantity = QuantityParser.parse(text.strip(), dimension);
        if (quantity.standardUncertainty() > 0) {
            throw new IllegalArgumentException("\"" + text.strip() + "\" has an uncertainty, which a limit has not");
        }
        if (dimension == Dimension.FLOW && !(quantity.value() > 0)) {
            throw new IllegalArgumentException("\"" + text.strip() + "\" is no leak above zero");
        }
        return quantity.value();
    }
}
