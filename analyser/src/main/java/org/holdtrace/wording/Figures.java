package org.holdtrace.wording;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import org.holdtrace.quantity.Unit;

/**
 * Numbers and units at the edge: SI inside, cm³/min, bar, cm³/bar and °C outside. Formats by hand rather than with
 * {@code String.format}, which alone costs a tenth of a whole short run.
 */
public final class Figures {
    private static final MathContext SIX_DIGITS = new MathContext(6, RoundingMode.HALF_EVEN);

    private Figures() {}

    /** From m³/s to cm³/min. */
    public static double cm3PerMin(double m3PerS) {
        return Unit.CM3_PER_MIN.fromSi(m3PerS);
    }

    /** From Pa to bar. */
    public static double bar(double pa) {
        return Unit.BAR.fromSi(pa);
    }

    /** From m³/Pa to cm³/bar. */
    public static double cm3PerBar(double m3PerPa) {
        return Unit.CM3_PER_BAR.fromSi(m3PerPa);
    }

    /** From K to °C. */
    public static double degC(double k) {
        return Unit.DEG_C.fromSi(k);
    }

    /** Rounded to six significant digits: more than any leak rate deserves, and short to print. */
    public static double sixDigits(double value) {
        return Double.isFinite(value) && value != 0
                ? BigDecimal.valueOf(value).round(SIX_DIGITS).doubleValue()
                : value;
    }

    /** Rounded to 0.1 ms, finer than any sampling interval in use. */
    public static double tenthMilliseconds(double seconds) {
        return Math.rint(seconds * 1e4) / 1e4;
    }

    /** With so many decimals, never in scientific notation; "unknown" where it is not a number. */
    public static String fixed(double value, int decimals) {
        if (!Double.isFinite(value)) {
            return "unknown";
        }
        String text = BigDecimal.valueOf(value)
                .setScale(decimals, RoundingMode.HALF_EVEN)
                .toPlainString();
        return isNegativeZero(text) ? text.substring(1) : text;
    }

    private static boolean isNegativeZero(String text) {
        if (!text.startsWith("-")) {
            return false;
        }
        for (int i = 1; i < text.length(); i++) {
            if (text.charAt(i) != '0' && text.charAt(i) != '.') {
                return false;
            }
        }
        return true;
    }

    /** With so many significant digits, trailing zeros dropped. */
    public static String significant(double value, int digits) {
        if (!Double.isFinite(value)) {
            return "unknown";
        }
        if (value == 0) {
            return "0";
        }
        return BigDecimal.valueOf(value)
                .round(new MathContext(digits, RoundingMode.HALF_EVEN))
                .stripTrailingZeros()
                .toPlainString();
    }

    /**
     * How many decimals a value with the interval from {@code lower} to {@code upper} is worth: two significant digits
     * of the half-width, as GUM 7.2.6 advises for uncertainties.
     */
    public static int decimalsFor(double lower, double upper) {
        double half = (upper - lower) / 2;
        if (!(half > 0) || Double.isInfinite(half)) {
            return 2;
        }
        return Math.max(0, Math.min(6, 1 - (int) Math.floor(Math.log10(half))));
    }

    /** A probability in words that do not pretend to know 0 or 1. */
    public static String percent(double probability) {
        if (probability < 0.001) {
            return "below 0.1 %";
        }
        if (probability > 0.999) {
            return "above 99.9 %";
        }
        double percent = 100 * probability;
        return fixed(percent, percent < 10 || percent > 90 ? 1 : 0) + " %";
    }
}
