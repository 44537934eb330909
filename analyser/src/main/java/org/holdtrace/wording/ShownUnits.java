package org.holdtrace.wording;

import org.holdtrace.quantity.Dimension;
import org.holdtrace.quantity.QuantityException;
import org.holdtrace.quantity.Unit;

/** The units results are shown in: one of pressure, one of volume, and what follows from the two. */
public final class ShownUnits {
    /** bar, cm³, °C. */
    public static final ShownUnits METRIC = new ShownUnits(Unit.BAR, Unit.CM3);

    private final Unit pressure;
    private final Unit volume;
    private final Unit flow;
    private final Unit compliance;
    private final Unit temperature;
    private final Unit length;

    private ShownUnits(Unit pressure, Unit volume) {
        this.pressure = pressure;
        this.volume = volume;
        flow = Unit.of(Dimension.FLOW, volume.symbol() + "/min");
        compliance = Unit.of(Dimension.COMPLIANCE, volume.symbol() + "/" + pressure.symbol());
        temperature = pressure == Unit.PSI ? Unit.DEG_F : Unit.DEG_C;
        length = volume == Unit.IN3 ? Unit.IN : Unit.MM;
    }

    /**
     * Reads {@code "psi, in3"}: a unit of pressure (bar, psi), one of volume (cm3, in3) or both, in any order; what is
     * not named is bar and cm³. With psi come °F, with in³ lengths in inches.
     *
     * @throws QuantityException where it names anything else, or two of a kind
     */
    public static ShownUnits parse(String text) {
        Unit pressure = null;
        Unit volume = null;
        for (String part : text.split(",", -1)) {
            switch (part.strip()) {
                case "bar" -> pressure = only(pressure, Unit.BAR, text);
                case "psi" -> pressure = only(pressure, Unit.PSI, text);
                case "cm3", "cm³" -> volume = only(volume, Unit.CM3, text);
                case "in3", "in³" -> volume = only(volume, Unit.IN3, text);
                default ->
                    throw new QuantityException(
                            "\"" + part.strip() + "\"", "bar or psi, cm3 or in3, or one of each as in \"psi, in3\"");
            }
        }
        return new ShownUnits(pressure == null ? Unit.BAR : pressure, volume == null ? Unit.CM3 : volume);
    }

    private static Unit only(Unit before, Unit now, String text) {
        if (before != null) {
            throw new QuantityException("two units of one kind in \"" + text + "\"", "one of each, as in \"psi, in3\"");
        }
        return now;
    }

    /** The unit of pressure. */
    public Unit pressure() {
        return pressure;
    }

    /** The unit of volume. */
    public Unit volume() {
        return volume;
    }

    /** Volume a minute. */
    public Unit flow() {
        return flow;
    }

    /** Volume by pressure. */
    public Unit compliance() {
        return compliance;
    }

    /** The unit of temperature. */
    public Unit temperature() {
        return temperature;
    }

    /** The unit of length. */
    public Unit length() {
        return length;
    }

    /** Length a minute. */
    public Unit speed() {
        return Unit.of(Dimension.SPEED, length.symbol() + "/min");
    }

    /** An area in cm², or in in² where lengths are in inches. */
    public double areaFromSi(double m2) {
        double side = areaSide().toSi(1);
        return m2 / (side * side);
    }

    /** "cm²" or "in²". */
    public String areaName() {
        return areaSide().symbol() + "²";
    }

    private Unit areaSide() {
        return length == Unit.IN ? Unit.IN : Unit.CM;
    }

    /** How a unit is written where people read it: "cm³/min", "°C". */
    public static String name(Unit unit) {
        return unit.symbol().replace("m3", "m³").replace("in3", "in³").replace("deg", "°");
    }
}
