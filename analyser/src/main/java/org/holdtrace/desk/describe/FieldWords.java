package org.holdtrace.desk.describe;

import java.util.List;
import org.holdtrace.quantity.Dimension;
import org.holdtrace.quantity.Quantity;
import org.holdtrace.quantity.QuantityException;
import org.holdtrace.quantity.QuantityParser;
import org.holdtrace.quantity.Unit;
import org.holdtrace.session.SetupField;
import org.holdtrace.wording.Figures;
import org.holdtrace.wording.ShownUnits;

/** What the form calls a field, and what it says to it. */
final class FieldWords {
    private FieldWords() {}

    static String label(SetupField field) {
        return switch (field) {
            case MACHINE -> "Machine";
            case COMPONENT -> "Component";
            case COMPONENT_KIND -> "Kind of component";
            case PORT -> "Port";
            case OIL_GRADE -> "Oil, viscosity grade";
            case OIL_TEMPERATURE -> "Oil temperature";
            case BULK_MODULUS -> "Bulk modulus of the oil";
            case AIR -> "Air in the oil";
            case TRAPPED_VOLUME -> "Trapped volume";
            case LINE_COMPLIANCE -> "Compliance of the line";
            case PUMP_STROKE -> "One pump stroke";
            case BLED_VOLUME -> "Oil caught when let off";
            case TRANSDUCER_RANGE -> "Transducer, range";
            case TRANSDUCER_ACCURACY -> "Transducer, accuracy";
            case REFERENCE_PRESSURE -> "State the leak at";
            case RELIEF_SETTING -> "Relief setting";
            case LIMIT -> "Leak limit";
        };
    }

    /** What the field is for; shown on hover. */
    static String help(SetupField field) {
        return switch (field) {
            case MACHINE, COMPONENT, PORT -> "Names it in the list and in the report.";
            case COMPONENT_KIND -> "Such as: cylinder, spool valve port, check valve. For the reader only.";
            case OIL_GRADE -> "Tells density, modulus and, with the temperature, viscosity: ISO VG 46, HLP 32.";
            case OIL_TEMPERATURE -> "Of the oil in the line during the test.";
            case BULK_MODULUS ->
                "Isothermal tangent modulus of the oil without air, at low pressure. Left empty, it comes from grade and"
                        + " temperature.";
            case AIR -> "Volume fraction at atmospheric pressure. Left empty, what is usual is supposed.";
            case TRAPPED_VOLUME ->
                "All oil under pressure: chamber, hose, adapters. The decay needs it; pump strokes of known volume do"
                        + " without.";
            case LINE_COMPLIANCE -> "What hose, gauge and fittings swell by, beyond the trapped oil.";
            case PUMP_STROKE -> "What one full stroke of the hand pump delivers.";
            case BLED_VOLUME -> "The oil caught from the end of the hold until the pressure is gone.";
            case TRANSDUCER_RANGE -> "From its label; its accuracy is a share of this span.";
            case TRANSDUCER_ACCURACY -> "Share of the span, from its data sheet.";
            case REFERENCE_PRESSURE -> "The pressure the leak rate is stated at. Left empty: where the hold begins.";
            case RELIEF_SETTING -> "Where the port's relief, or the pump's, begins to open.";
            case LIMIT -> "More than this is over the limit. Left empty, there is no verdict.";
        };
    }

    /** A right text, in units of {@code units} where it has one of pressure or volume. */
    static String example(SetupField field, ShownUnits units) {
        boolean psi = units.pressure() == Unit.PSI;
        boolean inches = units.volume() == Unit.IN3;
        return switch (field) {
            case OIL_TEMPERATURE -> psi ? "72 ± 4 degF" : "22 ± 2 degC";
            case TRAPPED_VOLUME -> inches ? "2.9 ± 0.3 in3" : "48 ± 5 cm3";
            case PUMP_STROKE -> inches ? "0.0275 ± 0.0006 in3" : "0.45 ± 0.01 cm3";
            case BLED_VOLUME -> inches ? "0.081 ± 0.001 in3" : "1.32 ± 0.02 cm3";
            case LINE_COMPLIANCE -> inches && psi ? "0.000038 ± 0.000002 in3/psi" : "0.0090 ± 0.0005 cm3/bar";
            case TRANSDUCER_RANGE -> psi ? "0..3600 psi" : "0..250 bar";
            case REFERENCE_PRESSURE -> psi ? "1750 psi" : "120 bar";
            case RELIEF_SETTING -> psi ? "2500 psi" : "172 bar";
            case LIMIT -> inches ? "0.9 in3/min" : "15 cm3/min";
            default -> field.example().replace("\"", "");
        };
    }

    /** Texts to choose from; empty where there are none. */
    static List<String> choices(SetupField field) {
        return switch (field) {
            case OIL_GRADE ->
                List.of(
                        "",
                        "ISO VG 15",
                        "ISO VG 22",
                        "ISO VG 32",
                        "ISO VG 46",
                        "ISO VG 68",
                        "ISO VG 100",
                        "ISO VG 150");
            case COMPONENT_KIND ->
                List.of("", "cylinder", "spool valve port", "port relief valve", "load-holding valve", "check valve");
            default -> List.of();
        };
    }

    /** What {@code text} is in the units of the desk; empty where it says so itself, or is no quantity. */
    static String meaning(SetupField field, String text, ShownUnits units) {
        Unit unit = field.dimension() == null ? null : shown(field.dimension(), units);
        if (unit == null || text.isBlank()) {
            return "";
        }
        try {
            Quantity quantity = QuantityParser.parse(text, field.dimension());
            boolean hasIt = text.replace("³", "3").replace("°", "deg").contains(unit.symbol());
            return hasIt ? "" : "= " + of(quantity, unit);
        } catch (QuantityException e) {
            return "";
        }
    }

    private static Unit shown(Dimension dimension, ShownUnits units) {
        return switch (dimension) {
            case PRESSURE -> units.pressure();
            case VOLUME -> units.volume();
            case FLOW -> units.flow();
            case COMPLIANCE -> units.compliance();
            case TEMPERATURE -> units.temperature();
            default -> null;
        };
    }

    /** {@code quantity} as people write it, to two digits of its uncertainty. */
    static String of(Quantity quantity, Unit unit) {
        return numbers(quantity, unit) + " " + ShownUnits.name(unit);
    }

    /** Value and uncertainty in {@code unit}, without its symbol. */
    static String numbers(Quantity quantity, Unit unit) {
        double value = unit.fromSi(quantity.value());
        double deviation = unit.differenceFromSi(quantity.standardUncertainty());
        if (!(deviation > 0)) {
            return Figures.significant(value, 5);
        }
        int decimals = Figures.decimalsFor(value - deviation, value + deviation);
        return Figures.fixed(value, decimals) + " ± " + Figures.fixed(deviation, decimals);
    }
}
