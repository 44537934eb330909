package org.holdtrace.session;

/**
 * Reads decimal numbers straight from a buffer of characters, without making a String of each.
 *
 * <p>Bit for bit what {@link Double#parseDouble} gives. Up to 18 digits and a power of ten within ±22 are exact in two
 * doubles, so that one multiplication or division rounds once (Clinger, <i>How to read floating point numbers
 * accurately</i>, PLDI 1990; from memory); everything else goes to the JDK. NaN, infinities, hexadecimal and anything
 * else that is not a plain decimal number is refused.
 */
final class DecimalCell {
    private static final double[] POWERS = {
        1e0, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15, 1e16, 1e17, 1e18, 1e19,
        1e20, 1e21, 1e22
    };
    private static final int MOST_DIGITS = 18;
    private static final long LARGEST_EXACT = 1L << 53;
    /** Beyond this a double is 0 or infinite whatever the digits. */
    private static final int MOST_EXPONENT = 9999;

    private final boolean commaAllowed;
    private char mark;
    private boolean mixed;

    /** @param commaAllowed whether a comma may be the decimal mark; the first mark met is then the only one */
    DecimalCell(boolean commaAllowed) {
        this.commaAllowed = commaAllowed;
    }

    /** Whether the last refusal was for a decimal mark other than the one of earlier cells. */
    boolean isMixed() {
        return mixed;
    }

    /** The decimal mark met so far, 0 where none was. */
    char mark() {
        return mark;
    }

    /** The number in {@code text[from … to-1]}, NaN where there is none; there must be no space around it. */
    double read(char[] text, int from, int to) {
        mixed = false;
        int i = from;
        boolean negative = false;
        if (i < to && (text[i] == '-' || text[i] == '+')) {
            negative = text[i] == '-';
            i++;
        }
        long digits = 0;
        int count = 0;
        int seen = 0;
        int scale = 0;
        int markAt = -1;
        for (; i < to; i++) {
            char c = text[i];
            if (c >= '0' && c <= '9') {
                seen++;
                if (count > 0 || c != '0') {
                    count++;
                }
                if (count <= MOST_DIGITS) {
                    digits = digits * 10 + (c - '0');
                }
                if (markAt >= 0) {
                    scale++;
                }
            } else if (markAt < 0 && (c == '.' || (c == ',' && commaAllowed))) {
                markAt = i;
            } else {
                break;
            }
        }
        if (seen == 0) {
            return Double.NaN;
        }
        int exponent = 0;
        if (i < to) {
            exponent = exponent(text, i, to);
            if (exponent == Integer.MIN_VALUE) {
                return Double.NaN;
            }
        }
        if (markAt >= 0 && !accept(text[markAt])) {
            return Double.NaN;
        }
        int power = exponent - scale;
        if (count <= MOST_DIGITS && digits <= LARGEST_EXACT && power >= -22 && power <= 22) {
            double magnitude = power < 0 ? digits / POWERS[-power] : digits * POWERS[power];
            return negative ? -magnitude : magnitude;
        }
        return slow(text, from, to);
    }

    /** The exponent that begins at {@code at}, {@code Integer.MIN_VALUE} where there is none. */
    private static int exponent(char[] text, int at, int to) {
        if (text[at] != 'e' && text[at] != 'E') {
            return Integer.MIN_VALUE;
        }
        int i = at + 1;
        boolean negative = i < to && text[i] == '-';
        if (i < to && (text[i] == '-' || text[i] == '+')) {
            i++;
        }
        int first = i;
        int value = 0;
        for (; i < to && text[i] >= '0' && text[i] <= '9'; i++) {
            value = Math.min(MOST_EXPONENT, value * 10 + (text[i] - '0'));
        }
        return i == first || i < to ? Integer.MIN_VALUE : negative ? -value : value;
    }

    private boolean accept(char found) {
        if (mark == 0) {
            mark = found;
        }
        mixed = mark != found;
        return !mixed;
    }

    private static double slow(char[] text, int from, int to) {
        double value = Double.parseDouble(new String(text, from, to - from).replace(',', '.'));
        return Double.isInfinite(value) ? Double.NaN : value;
    }
}
