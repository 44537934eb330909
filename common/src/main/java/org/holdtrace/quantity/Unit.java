package org.holdtrace.quantity;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/**
 * A unit of one {@link Dimension}: {@code SI value = (value + zero) · numerator / denominator}. The factors are the exact
 * ones by definition: 1 bar = 1e5 Pa, 1 in = 0.0254 m, 1 lbf = 4.4482216152605 N, 1 US gal = 231 in³ (NIST SP 811
 * appendix B.8); a temperature difference of 1 °F is 1/1.8 K. Flow is volume by time, compliance volume by pressure and
 * speed length by time, so every such pair is a unit: cm3/min, ml/h, in3/psi, mm/min, ….
 */
public final class Unit {
    /** Digits kept in exact arithmetic: more than twice those of a double. */
    static final MathContext EXACT = new MathContext(60, RoundingMode.HALF_EVEN);

    private static final Map<String, Unit> BY_NAME = new LinkedHashMap<>();

    public static final Unit BAR = unit(Dimension.PRESSURE, "1e5", "1", "bar", "Bar", "BAR");
    public static final Unit PSI = unit(Dimension.PRESSURE, "4.4482216152605", "0.00064516", "psi", "PSI");
    public static final Unit KPA = unit(Dimension.PRESSURE, "1e3", "1", "kPa");
    public static final Unit MPA = unit(Dimension.PRESSURE, "1e6", "1", "MPa");
    public static final Unit PA = unit(Dimension.PRESSURE, "1", "1", "Pa");
    public static final Unit GPA = unit(Dimension.PRESSURE, "1e9", "1", "GPa");
    public static final Unit MBAR = unit(Dimension.PRESSURE, "100", "1", "mbar");

    public static final Unit S = unit(Dimension.TIME, "1", "1", "s");
    public static final Unit MS = unit(Dimension.TIME, "1", "1000", "ms");
    public static final Unit MIN = unit(Dimension.TIME, "60", "1", "min");
    public static final Unit H = unit(Dimension.TIME, "3600", "1", "h");

    public static final Unit CM3 = unit(Dimension.VOLUME, "1", "1e6", "cm3", "cm³", "cm^3", "cc", "ccm");
    public static final Unit ML = unit(Dimension.VOLUME, "1", "1e6", "ml", "mL");
    public static final Unit L = unit(Dimension.VOLUME, "1", "1e3", "l", "L");
    public static final Unit MM3 = unit(Dimension.VOLUME, "1", "1e9", "mm3", "mm³", "mm^3");
    public static final Unit M3 = unit(Dimension.VOLUME, "1", "1", "m3", "m³", "m^3");
    public static final Unit IN3 = unit(Dimension.VOLUME, "1.6387064e-5", "1", "in3", "in³", "in^3", "cu in");
    public static final Unit GAL = unit(Dimension.VOLUME, "3.785411784e-3", "1", "gal");

    public static final Unit GPM = unit(Dimension.FLOW, "3.785411784e-3", "60", "gpm");
    public static final Unit CM3_PER_MIN = registered("cm3/min");
    public static final Unit M3_PER_S = registered("m3/s");
    public static final Unit CM3_PER_BAR = registered("cm3/bar");
    public static final Unit M3_PER_PA = registered("m3/Pa");

    public static final Unit K = unit(Dimension.TEMPERATURE, "1", "1", "K");
    public static final Unit DEG_C = register(
            new Unit(Dimension.TEMPERATURE, "degC", "273.15", BigDecimal.ONE, BigDecimal.ONE), "degC", "°C", "℃");
    public static final Unit DEG_F = register(
            new Unit(Dimension.TEMPERATURE, "degF", "459.67", BigDecimal.ONE, new BigDecimal("1.8")), "degF", "°F");

    public static final Unit PERCENT = unit(Dimension.FRACTION, "1", "100", "%");
    /** A plain number. */
    public static final Unit ONE = unit(Dimension.FRACTION, "1", "1", "");

    public static final Unit CST = unit(Dimension.VISCOSITY, "1", "1e6", "cSt");
    public static final Unit MM2_PER_S = unit(Dimension.VISCOSITY, "1", "1e6", "mm2/s", "mm²/s", "mm^2/s");
    public static final Unit M2_PER_S = unit(Dimension.VISCOSITY, "1", "1", "m2/s", "m²/s", "m^2/s");

    public static final Unit V = unit(Dimension.VOLTAGE, "1", "1", "V");
    public static final Unit MV = unit(Dimension.VOLTAGE, "1", "1000", "mV");
    public static final Unit A = unit(Dimension.CURRENT, "1", "1", "A");
    public static final Unit MA = unit(Dimension.CURRENT, "1", "1000", "mA");
    public static final Unit OHM = unit(Dimension.RESISTANCE, "1", "1", "Ohm", "ohm", "Ω", "\u2126");
    public static final Unit KOHM = unit(Dimension.RESISTANCE, "1000", "1", "kOhm", "kohm", "kΩ", "k\u2126");
    public static final Unit HZ = unit(Dimension.FREQUENCY, "1", "1", "Hz");
    public static final Unit KHZ = unit(Dimension.FREQUENCY, "1000", "1", "kHz");
    public static final Unit MHZ = unit(Dimension.FREQUENCY, "1e6", "1", "MHz");

    public static final Unit MM = unit(Dimension.LENGTH, "1", "1000", "mm");
    public static final Unit CM = unit(Dimension.LENGTH, "1", "100", "cm");
    public static final Unit M = unit(Dimension.LENGTH, "1", "1", "m");
    public static final Unit IN = unit(Dimension.LENGTH, "0.0254", "1", "in");
    public static final Unit MM_PER_MIN = registered("mm/min");

    public static final Unit KN = unit(Dimension.FORCE, "1e3", "1", "kN");
    public static final Unit N = unit(Dimension.FORCE, "1", "1", "N");
    public static final Unit LBF = unit(Dimension.FORCE, "4.4482216152605", "1", "lbf");

    private final Dimension dimension;
    private final String symbol;
    private final BigDecimal zero;
    private final BigDecimal numerator;
    private final BigDecimal denominator;
    private final double zeroNumber;
    private final boolean multiplies;
    private final double factor;

    private Unit(Dimension dimension, String symbol, String zero, BigDecimal numerator, BigDecimal denominator) {
        this.dimension = dimension;
        this.symbol = symbol;
        this.zero = new BigDecimal(zero);
        this.numerator = numerator;
        this.denominator = denominator;
        zeroNumber = this.zero.doubleValue();
        // The factor at or above 1 is kept and multiplied or divided by: 1e6 is a double, 1e-6 is not.
        multiplies = numerator.compareTo(denominator) >= 0;
        factor = multiplies ? quotient(numerator, denominator) : quotient(denominator, numerator);
    }

    /** Rounded once; whole numbers without the long division, since every run makes all units. */
    private static double quotient(BigDecimal above, BigDecimal below) {
        return isExact(above) && isExact(below)
                ? above.doubleValue() / below.doubleValue()
                : above.divide(below, EXACT).doubleValue();
    }

    /** Whether a double holds it: a whole number of at most 15 digits. */
    private static boolean isExact(BigDecimal number) {
        return number.scale() <= 0 && number.precision() - number.scale() <= 15;
    }

    private static Unit unit(Dimension dimension, String numerator, String denominator, String... names) {
        return register(
                new Unit(dimension, names[0], "0", new BigDecimal(numerator), new BigDecimal(denominator)), names);
    }

    private static Unit register(Unit unit, String... names) {
        for (String name : names) {
            BY_NAME.put(name, unit);
        }
        return unit;
    }

    private static Unit registered(String pair) {
        return register(find(pair), pair);
    }

    /** The unit of that name, or null. Pairs are put together when asked for: most runs need two or three of them. */
    private static Unit find(String name) {
        Unit unit = BY_NAME.get(name);
        int slash = name.indexOf('/');
        if (unit != null || slash < 0) {
            return unit;
        }
        Unit above = BY_NAME.get(name.substring(0, slash));
        Unit below = BY_NAME.get(name.substring(slash + 1));
        Dimension quotient = above == null || below == null ? null : quotient(above.dimension, below.dimension);
        if (quotient == null) {
            return null;
        }
        return new Unit(
                quotient,
                name,
                "0",
                above.numerator.multiply(below.denominator),
                above.denominator.multiply(below.numerator));
    }

    private static Dimension quotient(Dimension above, Dimension below) {
        if (above == Dimension.LENGTH) {
            return below == Dimension.TIME ? Dimension.SPEED : null;
        }
        if (above != Dimension.VOLUME) {
            return null;
        }
        return below == Dimension.TIME ? Dimension.FLOW : below == Dimension.PRESSURE ? Dimension.COMPLIANCE : null;
    }

    /**
     * The unit of {@code dimension} written {@code name}.
     *
     * @throws QuantityException (an IllegalArgumentException) where there is none; names a near match
     */
    public static Unit of(Dimension dimension, String name) {
        Unit unit = find(name);
        if (unit != null && unit.dimension == dimension) {
            return unit;
        }
        String expected = "a unit of " + dimension.label() + ": " + dimension.examples();
        if (name.isEmpty()) {
            throw new QuantityException("no unit", expected);
        }
        if (unit != null) {
            throw new QuantityException("\"" + name + "\" is a unit of " + unit.dimension.label(), expected);
        }
        Optional<String> near = NearMatch.of(name, namesOf(dimension));
        throw new QuantityException(
                "unknown unit \"" + name + "\"",
                near.map(match -> "\"" + match + "\"? (" + expected + ")").orElse(expected));
    }

    /** Every way to write a unit of {@code dimension}. */
    static Set<String> namesOf(Dimension dimension) {
        Set<String> names = new LinkedHashSet<>();
        for (Map.Entry<String, Unit> single : BY_NAME.entrySet()) {
            if (single.getValue().dimension == dimension && !single.getKey().isEmpty()) {
                names.add(single.getKey());
            }
            for (Map.Entry<String, Unit> below : BY_NAME.entrySet()) {
                if (quotient(single.getValue().dimension, below.getValue().dimension) == dimension) {
                    names.add(single.getKey() + "/" + below.getKey());
                }
            }
        }
        return names;
    }

    /** What it measures. */
    public Dimension dimension() {
        return dimension;
    }

    /** How it is written. */
    public String symbol() {
        return symbol;
    }

    /** Whether its zero is not that of the SI unit, so that a percentage of a value means nothing. */
    public boolean hasOffset() {
        return zero.signum() != 0;
    }

    /** A value in this unit as SI value. */
    public double toSi(double value) {
        return differenceToSi(value + zeroNumber);
    }

    /** An SI value in this unit. */
    public double fromSi(double siValue) {
        return differenceFromSi(siValue) - zeroNumber;
    }

    /** A difference (an uncertainty, a rise) in this unit as SI value: 1 degF is 1/1.8 K. */
    public double differenceToSi(double difference) {
        return multiplies ? difference * factor : difference / factor;
    }

    /** An SI difference in this unit. */
    public double differenceFromSi(double siDifference) {
        return multiplies ? siDifference / factor : siDifference * factor;
    }

    /** As {@link #toSi(double)}, rounded once. */
    double exactToSi(BigDecimal value) {
        return exactDifferenceToSi(value.add(zero));
    }

    /** As {@link #differenceToSi(double)}, rounded once. */
    double exactDifferenceToSi(BigDecimal difference) {
        return difference.multiply(numerator).divide(denominator, EXACT).doubleValue();
    }

    /** As {@link #fromSi(double)}, to {@link #EXACT} digits. */
    BigDecimal exactFromSi(double siValue) {
        return exactDifferenceFromSi(siValue).subtract(zero);
    }

    /** As {@link #differenceFromSi(double)}, to {@link #EXACT} digits. */
    BigDecimal exactDifferenceFromSi(double siDifference) {
        return new BigDecimal(siDifference).multiply(denominator).divide(numerator, EXACT);
    }

    @Override
    public String toString() {
        return symbol;
    }
}
