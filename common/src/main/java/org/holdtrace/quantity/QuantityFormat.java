package org.holdtrace.quantity;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.function.ToDoubleFunction;

/** Writes quantities so that {@link QuantityParser} reads the very same numbers back. */
public final class QuantityFormat {
    private static final int FIRST_TRY_DIGITS = 6;
    private static final int MOST_DIGITS = 40;
    /** Numbers with more zeros than this before or behind the digits are written with an exponent. */
    private static final int MOST_ZEROS = 6;

    private QuantityFormat() {}

    /**
     * {@code 48 ± 5 cm3}; without the ± part where the uncertainty is 0. The fewest digits (up to 40) that read back to
     * the same double; a temperature within 1e-40 of the zero of its scale loses digits.
     *
     * @param quantity in SI
     * @param unit to write it in
     */
    public static String format(Quantity quantity, Unit unit) {
        StringBuilder out = new StringBuilder(number(quantity.value(), unit));
        if (quantity.standardUncertainty() > 0) {
            double uncertainty = quantity.standardUncertainty();
            out.append(" ± ")
                    .append(shortest(unit.exactDifferenceFromSi(uncertainty), uncertainty, unit::exactDifferenceToSi));
        }
        if (!unit.symbol().isEmpty()) {
            out.append(' ').append(unit.symbol());
        }
        return out.toString();
    }

    /** An SI value in {@code unit}, without the unit's symbol. */
    public static String number(double siValue, Unit unit) {
        return shortest(unit.exactFromSi(siValue), siValue, unit::exactToSi);
    }

    private static String shortest(BigDecimal exact, double siValue, ToDoubleFunction<BigDecimal> back) {
        for (int digits = FIRST_TRY_DIGITS; digits < MOST_DIGITS; digits++) {
            BigDecimal rounded = exact.round(new MathContext(digits, RoundingMode.HALF_EVEN));
            if (back.applyAsDouble(rounded) == siValue) {
                return plain(rounded);
            }
        }
        return plain(exact.round(new MathContext(MOST_DIGITS, RoundingMode.HALF_EVEN)));
    }

    private static String plain(BigDecimal number) {
        if (number.signum() == 0) {
            return "0";
        }
        BigDecimal stripped = number.stripTrailingZeros();
        int leading = stripped.scale() - stripped.precision();
        return stripped.scale() < -MOST_ZEROS || leading > MOST_ZEROS ? stripped.toString() : stripped.toPlainString();
    }
}
