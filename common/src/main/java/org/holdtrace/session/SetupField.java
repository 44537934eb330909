package org.holdtrace.session;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.holdtrace.quantity.Dimension;
import org.holdtrace.quantity.Quantity;
import org.holdtrace.quantity.Unit;

/** The fields of a setup: where each stands, what it may hold and the unit it is written in. One table for both ways. */
public enum SetupField {
    MACHINE("machine", "\"Loader 7\""),
    COMPONENT("component", "\"Bucket valve\""),
    COMPONENT_KIND("componentKind", "\"spool valve port\""),
    PORT("port", "\"A\""),
    OIL_GRADE("oil.grade", OilGrade.EXAMPLE),
    // From stiff cold to far above any seal's limit: 72 meant in degF and typed as degC still passes, 720 does not.
    OIL_TEMPERATURE(
            "oil.temperature",
            Dimension.TEMPERATURE,
            "degC",
            "\"22 ± 2 degC\"",
            193.15,
            523.15,
            "a temperature from -80 to 250 degC"),
    BULK_MODULUS(
            "oil.bulkModulus",
            Dimension.PRESSURE,
            "GPa",
            "\"1.42 ± 0.05 GPa\"",
            1e8,
            1e10,
            "a modulus from 0.1 to 10 GPa"),
    AIR("oil.air", Dimension.FRACTION, "%", "\"0.5 ± 0.3 %\"", 0, 0.3, "a volume fraction from 0 to 30 %"),
    TRAPPED_VOLUME(
            "trappedVolume",
            Dimension.VOLUME,
            "cm3",
            "\"48 ± 5 cm3\"",
            1e-9,
            1e3,
            "a volume from 0.001 cm3 to 1000 m3"),
    LINE_COMPLIANCE(
            "lineCompliance",
            Dimension.COMPLIANCE,
            "cm3/bar",
            "\"0.0090 ± 0.0005 cm3/bar\"",
            1e-18,
            1e-5,
            "a compliance above 0 and up to 1000 l/bar"),
    PUMP_STROKE(
            "pumpStroke",
            Dimension.VOLUME,
            "cm3",
            "\"0.45 ± 0.01 cm3\"",
            1e-11,
            0.1,
            "a volume from 0.00001 cm3 to 100 l"),
    BLED_VOLUME(
            "bledVolume",
            Dimension.VOLUME,
            "cm3",
            "\"1.32 ± 0.02 cm3\"",
            1e-12,
            1e2,
            "a volume from 0.000001 cm3 to 100 m3"),
    TRANSDUCER_RANGE("transducer.range", "\"0..250 bar\""),
    TRANSDUCER_ACCURACY("transducer.accuracy", "\"0.25 %\""),
    REFERENCE_PRESSURE(
            "referencePressure",
            Dimension.PRESSURE,
            "bar",
            "\"120 bar\"",
            Double.MIN_VALUE,
            1e9,
            "a pressure above 0 and up to 10 000 bar"),
    RELIEF_SETTING(
            "reliefSetting",
            Dimension.PRESSURE,
            "bar",
            "\"172 bar\"",
            Double.MIN_VALUE,
            1e9,
            "a pressure above 0 and up to 10 000 bar"),
    LIMIT(
            "limit",
            Dimension.FLOW,
            "cm3/min",
            "\"15 cm3/min\"",
            Double.MIN_VALUE,
            1,
            "a leak rate above 0 and up to 1 m3/s");

    /** The two ends of a transducer's range, Pa. */
    record Range(double minPa, double maxPa) {}

    private final String path;
    private final Dimension dimension;
    private final String unitName;
    private final double lowest;
    private final double highest;
    private final String possible;
    private final String example;

    SetupField(String path, String example) {
        this.path = path;
        this.dimension = null;
        this.unitName = "";
        this.lowest = Double.NaN;
        this.highest = Double.NaN;
        this.possible = "";
        this.example = example;
    }

    SetupField(
            String path,
            Dimension dimension,
            String unitName,
            String example,
            double lowest,
            double highest,
            String possible) {
        this.path = path;
        this.dimension = dimension;
        this.unitName = unitName;
        this.lowest = lowest;
        this.highest = highest;
        this.possible = possible;
        this.example = example;
    }

    /** Where it stands: {@code limit}, {@code oil.air}. */
    public String path() {
        return path;
    }

    /** The object it stands in, empty at the top. */
    String group() {
        int dot = path.indexOf('.');
        return dot < 0 ? "" : path.substring(0, dot);
    }

    /** Its name inside its group. */
    String leaf() {
        return path.substring(path.indexOf('.') + 1);
    }

    /** Whether it holds a quantity with an uncertainty. */
    public boolean isQuantity() {
        return dimension != null;
    }

    /** The unit a quantity is written in. */
    public Unit unit() {
        return Unit.of(dimension, unitName);
    }

    /** What a quantity measures; null for a field that holds none. */
    public Dimension dimension() {
        return dimension;
    }

    /** A right value, as JSON. */
    public String example() {
        return example;
    }

    /** The SI values that are physically possible, in words. */
    String possible() {
        return possible;
    }

    /** Whether an SI value is physically possible; NaN is not. */
    boolean allows(double siValue) {
        return siValue >= lowest && siValue <= highest;
    }

    /** The field at {@code path}, or null. */
    static SetupField at(String path) {
        for (SetupField field : values()) {
            if (field.path.equals(path)) {
                return field;
            }
        }
        return null;
    }

    /** Names that may stand in {@code group}: its fields and, at the top, the other groups. */
    static List<String> namesIn(String group) {
        List<String> names = new ArrayList<>();
        for (SetupField field : values()) {
            String name = field.group().equals(group) ? field.leaf() : group.isEmpty() ? field.group() : "";
            if (!name.isEmpty() && !names.contains(name)) {
                names.add(name);
            }
        }
        return names;
    }

    /** The setup that these values make; each is of the class its field holds. */
    static TestSetup toSetup(Map<SetupField, Object> values) {
        Optional<Range> range = Optional.ofNullable((Range) values.get(TRANSDUCER_RANGE));
        return new TestSetup(
                text(values, MACHINE),
                text(values, COMPONENT),
                text(values, COMPONENT_KIND),
                text(values, PORT),
                text(values, OIL_GRADE),
                quantity(values, OIL_TEMPERATURE),
                quantity(values, BULK_MODULUS),
                quantity(values, AIR),
                quantity(values, TRAPPED_VOLUME),
                quantity(values, LINE_COMPLIANCE),
                quantity(values, PUMP_STROKE),
                quantity(values, BLED_VOLUME),
                range.isPresent() ? Optional.of(range.get().minPa()) : Optional.empty(),
                range.isPresent() ? Optional.of(range.get().maxPa()) : Optional.empty(),
                Optional.ofNullable((Double) values.get(TRANSDUCER_ACCURACY)),
                quantity(values, REFERENCE_PRESSURE),
                quantity(values, RELIEF_SETTING),
                quantity(values, LIMIT));
    }

    private static Optional<String> text(Map<SetupField, Object> values, SetupField field) {
        return Optional.ofNullable((String) values.get(field));
    }

    private static Optional<Quantity> quantity(Map<SetupField, Object> values, SetupField field) {
        return Optional.ofNullable((Quantity) values.get(field));
    }

    /** What a setup knows, field by field. */
    static Map<SetupField, Object> valuesOf(TestSetup setup) {
        Map<SetupField, Object> values = new EnumMap<>(SetupField.class);
        put(values, MACHINE, setup.machine());
        put(values, COMPONENT, setup.component());
        put(values, COMPONENT_KIND, setup.componentKind());
        put(values, PORT, setup.port());
        put(values, OIL_GRADE, setup.oilGrade());
        put(values, OIL_TEMPERATURE, setup.oilTemperatureK());
        put(values, BULK_MODULUS, setup.bulkModulusPa());
        put(values, AIR, setup.airFraction());
        put(values, TRAPPED_VOLUME, setup.trappedVolumeM3());
        put(values, LINE_COMPLIANCE, setup.lineComplianceM3PerPa());
        put(values, PUMP_STROKE, setup.pumpStrokeM3());
        put(values, BLED_VOLUME, setup.bledVolumeM3());
        if (setup.transducerMinPa().isPresent() != setup.transducerMaxPa().isPresent()) {
            throw new IllegalArgumentException("a transducer's range has two ends; this setup knows only one");
        }
        if (setup.transducerMinPa().isPresent()) {
            values.put(
                    TRANSDUCER_RANGE,
                    new Range(
                            setup.transducerMinPa().get(),
                            setup.transducerMaxPa().orElseThrow()));
        }
        put(values, TRANSDUCER_ACCURACY, setup.transducerAccuracy());
        put(values, REFERENCE_PRESSURE, setup.referencePressurePa());
        put(values, RELIEF_SETTING, setup.reliefSettingPa());
        put(values, LIMIT, setup.limitM3PerS());
        return values;
    }

    private static void put(Map<SetupField, Object> values, SetupField field, Optional<?> value) {
        if (value.isPresent()) {
            values.put(field, value.get());
        }
    }
}
