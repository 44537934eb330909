package org.holdtrace.report;

import static org.holdtrace.wording.Figures.fixed;
import static org.holdtrace.wording.Figures.significant;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.Instant;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.Locale;
import org.holdtrace.quantity.Quantity;
import org.holdtrace.quantity.Unit;
import org.holdtrace.wording.ShownUnits;

/** Values as they stand in the report's tables. */
final class Values {
    private static final DateTimeFormatter DAY_AND_TIME = DateTimeFormatter.ofPattern(
                    "uuuu-MM-dd HH:mm:ss 'UTC'", Locale.ROOT)
            .withZone(ZoneOffset.UTC);

    private Values() {}

    /** "48.0 ± 5.0 cm³"; the uncertainty has two digits and the value as many decimals. */
    static String quantity(Quantity quantity, Unit unit) {
        String name = ShownUnits.name(unit);
        double value = unit.fromSi(quantity.value());
        double uncertainty = unit.differenceFromSi(quantity.standardUncertainty());
        if (!(uncertainty > 0)) {
            return significant(value, 4) + " " + name;
        }
        int decimals = Math.max(0, 1 - (int) Math.floor(Math.log10(uncertainty)));
        return fixed(value, decimals) + " ± " + fixed(uncertainty, decimals) + " " + name;
    }

    /** Four significant digits, for a column that names the unit in its head. */
    static String figure(double si, Unit unit) {
        return significant(unit.fromSi(si), 4);
    }

    /** So many significant digits and the unit. */
    static String value(double si, int digits, Unit unit) {
        return significant(unit.fromSi(si), digits) + " " + ShownUnits.name(unit);
    }

    /** A difference: of temperatures, or a reading from what it should be. */
    static String difference(double si, int digits, Unit unit) {
        return significant(unit.differenceFromSi(si), digits) + " " + ShownUnits.name(unit);
    }

    /** A pressure to a tenth of a bar or a whole psi. */
    static String pressure(double pa, ShownUnits units) {
        return fixed(units.pressure().fromSi(pa), units.pressure() == Unit.PSI ? 0 : 1) + " "
                + ShownUnits.name(units.pressure());
    }

    /** When a recording began, by its own clock. */
    static String instant(Instant instant) {
        return DAY_AND_TIME.format(instant);
    }

    /** "4.2 s", "7 min 12 s". */
    static String duration(double seconds) {
        if (seconds < 100) {
            return fixed(seconds, 1) + " s";
        }
        long whole =
                BigDecimal.valueOf(seconds).setScale(0, RoundingMode.HALF_UP).longValueExact();
        return whole / 60 + " min " + whole % 60 + " s";
    }
}
