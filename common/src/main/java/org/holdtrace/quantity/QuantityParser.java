package org.holdtrace.quantity;

import java.math.BigDecimal;

/**
 * Reads quantities as people write them: {@code 48 ± 5 cm3}, {@code 48 cm3 ± 10 %}, {@code 48 cm3}, {@code 22 ± 2 degC}.
 *
 * <p>What follows ± (or +/-) is the <em>standard</em> uncertainty. After the unit it may be a percentage, which is of
 * the value (so {@code 0.5 % ± 60 %} is 0.5 ± 0.3 %), or a number with a unit of its own. A percentage of a temperature
 * in degC or degF is refused, since it depends on where the scale has its zero. The decimal mark is a point. Values are
 * rounded once, from exact decimal arithmetic, so 48 cm3 is the double 48e-6.
 */
public final class QuantityParser {
    private static final int LONGEST_EXPONENT = 3;

    private final String text;
    private final Dimension dimension;
    private int at;

    private QuantityParser(String text, Dimension dimension) {
        this.text = text;
        this.dimension = dimension;
    }

    /**
     * Reads one quantity, value and uncertainty in SI.
     *
     * @throws QuantityException (an IllegalArgumentException) that says what was found, what was expected, and the near
     *     match of a misspelt unit
     */
    public static Quantity parse(String text, Dimension dimension) {
        return new QuantityParser(text, dimension).quantity();
    }

    /** The quantity as an example of its dimension would be written, for messages. */
    public static String example(Dimension dimension) {
        return switch (dimension) {
            case PRESSURE -> "\"120 ± 2 bar\"";
            case TIME -> "\"60 ± 1 s\"";
            case VOLUME -> "\"48 ± 5 cm3\"";
            case FLOW -> "\"15 ± 1 cm3/min\"";
            case COMPLIANCE -> "\"0.0090 ± 0.0005 cm3/bar\"";
            case TEMPERATURE -> "\"22 ± 2 degC\"";
            case FRACTION -> "\"0.5 ± 0.3 %\"";
            case VISCOSITY -> "\"46 ± 2 cSt\"";
            case VOLTAGE -> "\"5 V\"";
            case CURRENT -> "\"20 mA\"";
            case RESISTANCE -> "\"150 Ohm\"";
            case FREQUENCY -> "\"250 Hz\"";
            case LENGTH -> "\"80 mm\"";
            case SPEED -> "\"2.0 ± 0.2 mm/min\"";
            case FORCE -> "\"45 kN\"";
        };
    }

    /** As {@link #example}, without an uncertainty. */
    public static String exactExample(Dimension dimension) {
        String example = example(dimension);
        int plusMinus = example.indexOf(" ± ");
        return plusMinus < 0
                ? example
                : example.substring(0, plusMinus) + example.substring(example.indexOf(' ', plusMinus + 3));
    }

    private Quantity quantity() {
        BigDecimal value = number("a number");
        BigDecimal uncertainty = plusMinus() ? number("the standard uncertainty after ±") : null;
        String unitName = unitName();
        if (unitName.startsWith("%") && uncertainty != null && dimension != Dimension.FRACTION) {
            throw bad("a percentage before the unit", "the percentage behind it, as in \"48 cm3 ± 10 %\"");
        }
        Unit unit = unit(unitName);
        double siUncertainty = uncertainty == null ? 0 : unit.exactDifferenceToSi(uncertainty);
        if (plusMinus()) {
            if (uncertainty != null) {
                throw bad("two uncertainties", "one, as in " + example(dimension));
            }
            uncertainty = number("the standard uncertainty after ±");
            String own = unitName();
            if (own.equals("%")) {
                if (unit.hasOffset()) {
                    throw bad(
                            "a percentage of a temperature in " + unit,
                            "the uncertainty in degrees, as in " + example(dimension));
                }
                uncertainty = uncertainty.multiply(value.abs()).movePointLeft(2);
                siUncertainty = unit.exactDifferenceToSi(uncertainty);
            } else if (own.isEmpty()) {
                throw bad("an uncertainty with no unit", "a unit or % behind it, as in " + example(dimension));
            } else {
                siUncertainty = unit(own).exactDifferenceToSi(uncertainty);
            }
        }
        if (at < text.length()) {
            throw bad("\"" + text.substring(at) + "\" behind the end", "nothing more, as in " + example(dimension));
        }
        if (uncertainty != null && uncertainty.signum() < 0) {
            throw bad("a negative uncertainty", "a standard uncertainty of at least 0");
        }
        double siValue = unit.exactToSi(value);
        if (!Double.isFinite(siValue) || !Double.isFinite(siUncertainty)) {
            throw bad("a number out of range", "a quantity such as " + example(dimension));
        }
        return new Quantity(siValue, siUncertainty);
    }

    private Unit unit(String name) {
        try {
            return Unit.of(dimension, name);
        } catch (QuantityException e) {
            throw bad(e.found(), e.expected() + (name.isEmpty() ? ", as in " + example(dimension) : ""));
        }
    }

    private BigDecimal number(String what) {
        skipSpace();
        int start = at;
        StringBuilder digits = new StringBuilder();
        if (at < text.length() && "+-−".indexOf(text.charAt(at)) >= 0 && !text.startsWith("+/-", at)) {
            digits.append(text.charAt(at) == '+' ? '+' : '-');
            at++;
        }
        int before = takeDigits(digits);
        int after = 0;
        if (at < text.length() && text.charAt(at) == '.') {
            digits.append('.');
            at++;
            after = takeDigits(digits);
        }
        if (before + after == 0) {
            String rest = text.substring(start).strip();
            throw bad(
                    rest.isEmpty()
                            ? "nothing where " + what + " belongs"
                            : "\"" + rest + "\" where " + what + " belongs",
                    "a quantity such as " + example(dimension));
        }
        takeExponent(digits);
        if (at < text.length() && text.charAt(at) == ',') {
            throw bad("a comma in a number", "a decimal point, as in " + example(dimension));
        }
        return new BigDecimal(digits.toString());
    }

    private int takeDigits(StringBuilder digits) {
        int start = at;
        while (at < text.length() && text.charAt(at) >= '0' && text.charAt(at) <= '9') {
            digits.append(text.charAt(at++));
        }
        return at - start;
    }

    /** An e is an exponent only where a number follows it. */
    private void takeExponent(StringBuilder digits) {
        if (at >= text.length() || (text.charAt(at) != 'e' && text.charAt(at) != 'E')) {
            return;
        }
        int from = at + 1;
        boolean signed = from < text.length() && "+-−".indexOf(text.charAt(from)) >= 0;
        StringBuilder exponent = new StringBuilder("e");
        if (signed) {
            exponent.append(text.charAt(from) == '+' ? '+' : '-');
        }
        int back = at;
        at = signed ? from + 1 : from;
        int length = takeDigits(exponent);
        if (length == 0) {
            at = back;
        } else if (length > LONGEST_EXPONENT) {
            throw bad("a number out of range", "a quantity such as " + example(dimension));
        } else {
            digits.append(exponent);
        }
    }

    private boolean plusMinus() {
        skipSpace();
        int length = text.startsWith("±", at) ? 1 : text.startsWith("+/-", at) ? 3 : 0;
        at += length;
        return length > 0;
    }

    private String unitName() {
        skipSpace();
        int start = at;
        while (at < text.length() && text.charAt(at) != '±' && !text.startsWith("+/-", at)) {
            at++;
        }
        return text.substring(start, at).strip();
    }

    private void skipSpace() {
        while (at < text.length()
                && (Character.isWhitespace(text.charAt(at)) || Character.isSpaceChar(text.charAt(at)))) {
            at++;
        }
    }

    private QuantityException bad(String found, String expected) {
        return new QuantityException("\"" + text + "\": " + found, expected);
    }
}
