package org.holdtrace.session;

import java.util.Locale;
import org.holdtrace.quantity.Dimension;
import org.holdtrace.quantity.QuantityException;
import org.holdtrace.quantity.Unit;

/** One column of a trace while it is read: what it holds, its unit, the cell of the present row and all rows before. */
final class CsvColumn {
    private static final String POSSIBLE_TEMPERATURE =
            "a temperature above -273.15 degC and up to 700 degC; is the unit in the header right?";

    /** What a column can hold. */
    enum Role {
        TIME("time", Dimension.TIME, "\"time [s]\", in s, ms, min or UTC", -1e12, 1e12, "a time within 30 000 years"),
        PRESSURE(
                "pressure",
                Dimension.PRESSURE,
                "\"pressure [bar]\", in bar, psi, kPa, MPa or Pa",
                -1e9,
                1e9,
                "a pressure up to 10 000 bar; is the unit in the header right?"),
        OIL_TEMPERATURE(
                "oil temperature",
                Dimension.TEMPERATURE,
                "\"oil temperature [degC]\"",
                Math.nextUp(0.0),
                1000,
                POSSIBLE_TEMPERATURE),
        AMBIENT_TEMPERATURE(
                "ambient temperature",
                Dimension.TEMPERATURE,
                "\"ambient temperature [degC]\"",
                Math.nextUp(0.0),
                1000,
                POSSIBLE_TEMPERATURE);

        private final String label;
        private final Dimension dimension;
        private final String example;
        private final double lowest;
        private final double highest;
        private final String possible;

        Role(String label, Dimension dimension, String example, double lowest, double highest, String possible) {
            this.label = label;
            this.dimension = dimension;
            this.example = example;
            this.lowest = lowest;
            this.highest = highest;
            this.possible = possible;
        }

        /** Whether an SI value can be one of this role's, be it a glitch. */
        boolean allows(double siValue) {
            return siValue >= lowest && siValue <= highest;
        }

        /** What {@link #allows} lets pass, for messages. */
        String possible() {
            return possible;
        }

        String label() {
            return label;
        }

        /** A column of this role as it would be written, for messages. */
        String example() {
            return example;
        }

        /** Whether every row must have it. */
        boolean isNeeded() {
            return this == TIME || this == PRESSURE;
        }

        /** The role a column of that name has, whatever its unit; null for none. */
        static Role of(String name) {
            String label = oneSpace(name.substring(0, labelEnd(name)).toLowerCase(Locale.ROOT));
            for (Role role : values()) {
                if (role.label.equals(label)) {
                    return role;
                }
            }
            return null;
        }
    }

    private static final String INSTANTS = "UTC";

    private final String name;
    private final Role role;
    private final Unit unit;
    private final DoubleColumn values = new DoubleColumn();
    private double cell;

    private CsvColumn(String name, Role role, Unit unit) {
        this.name = name;
        this.role = role;
        this.unit = unit;
    }

    /**
     * The column that header cell {@code name} announces.
     *
     * @throws QuantityException where it has no unit or one of another dimension
     */
    static CsvColumn of(String name, Role role) {
        String rest = name.substring(labelEnd(name)).strip();
        if (!rest.startsWith("[") || !rest.endsWith("]")) {
            throw new QuantityException("no unit in square brackets", role.example);
        }
        String unit = rest.substring(1, rest.length() - 1).strip();
        if (role == Role.TIME && unit.equals(INSTANTS)) {
            return new CsvColumn(name, role, null);
        }
        try {
            return new CsvColumn(name, role, Unit.of(role.dimension, unit));
        } catch (QuantityException e) {
            throw role == Role.TIME
                    ? new QuantityException(e.found(), e.expected() + ", or UTC for ISO 8601 instants")
                    : e;
        }
    }

    /** Where the name ends and the bracket with the unit, of whatever shape, begins. */
    static int labelEnd(String name) {
        for (int i = 0; i < name.length(); i++) {
            if ("[({".indexOf(name.charAt(i)) >= 0) {
                return i;
            }
        }
        return name.length();
    }

    /** Without space at the ends, and one space where there were several. */
    private static String oneSpace(String text) {
        StringBuilder words = new StringBuilder();
        for (int i = 0; i < text.length(); i++) {
            char c = text.charAt(i);
            if (!Character.isWhitespace(c)) {
                words.append(c);
            } else if (words.length() > 0 && words.charAt(words.length() - 1) != ' ') {
                words.append(' ');
            }
        }
        return words.toString().stripTrailing();
    }

    String name() {
        return name;
    }

    Role role() {
        return role;
    }

    /** Whether it holds instants; there is no unit then. */
    boolean isClock() {
        return unit == null;
    }

    /** Takes a cell of the present row in the column's unit. */
    void cell(double value) {
        cell = unit.toSi(value);
    }

    /** Takes a cell of the present row in SI; NaN for an empty one. */
    void siCell(double siValue) {
        cell = siValue;
    }

    /** The cell of the present row in SI. */
    double siCell() {
        return cell;
    }

    /** The present row is right. */
    void keep() {
        values.add(cell);
    }

    /** All rows in SI; the column is empty afterwards. */
    double[] release() {
        return values.release();
    }
}
