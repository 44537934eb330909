package org.holdtrace.session;

import org.holdtrace.quantity.QuantityException;

/**
 * The forms in which a setup may give the oil's viscosity grade: {@code ISO VG 46}, {@code VG 46}, {@code 46}, or a class
 * of hydraulic oil with the grade behind it ({@code HLP 46}, {@code ISO HM 46}, {@code HVLP 32}). The number is one of the
 * grades of ISO 3448 (kinematic viscosity at 40 °C in mm²/s; list from memory). A viscosity ("46 cSt at 40 degC") is not
 * a grade and is refused: the grade stands for the ±10 % band of the standard, a measured viscosity would not.
 */
final class OilGrade {
    static final String EXAMPLE = "\"ISO VG 46\"";

    private static final int[] GRADES = {
        2, 3, 5, 7, 10, 15, 22, 32, 46, 68, 100, 150, 220, 320, 460, 680, 1000, 1500, 2200, 3200
    };
    private static final String[] CLASSES = {"VG", "HL", "HM", "HV", "HH", "HLP", "HVLP"};

    private OilGrade() {}

    /** The grade as it was written, without space at its ends. */
    static String check(String text) {
        String trimmed = text.strip();
        int digits = trimmed.length();
        while (digits > 0 && Character.isDigit(trimmed.charAt(digits - 1))) {
            digits--;
        }
        String number = trimmed.substring(digits);
        if (!isClass(trimmed.substring(0, digits)) || number.isEmpty() || number.length() > 4) {
            throw new QuantityException("\"" + text + "\" is no viscosity grade", "a grade such as " + EXAMPLE);
        }
        int grade = Integer.parseInt(number);
        int nearest = GRADES[0];
        for (int known : GRADES) {
            if (Math.abs(Math.log((double) known / grade)) < Math.abs(Math.log((double) nearest / grade))) {
                nearest = known;
            }
        }
        if (nearest != grade) {
            throw new QuantityException(
                    "\"" + text + "\": " + grade + " is no ISO 3448 grade", "\"ISO VG " + nearest + "\"?");
        }
        return trimmed;
    }

    private static boolean isClass(String text) {
        String word = text;
        if (word.regionMatches(true, 0, "ISO", 0, 3)) {
            word = word.substring(3);
        }
        word = word.replace('-', ' ').strip();
        if (word.isEmpty()) {
            return true;
        }
        for (String known : CLASSES) {
            if (known.equalsIgnoreCase(word)) {
                return true;
            }
        }
        return false;
    }
}
