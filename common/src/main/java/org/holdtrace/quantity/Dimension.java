package org.holdtrace.quantity;

/** What a quantity measures. Each has one SI unit, which is the only one used inside the program. */
public enum Dimension {
    /** Pa, gauge. */
    PRESSURE("pressure", "bar, psi, kPa, MPa, Pa or GPa"),
    /** s. */
    TIME("time", "s, ms, min or h"),
    /** m³. */
    VOLUME("volume", "cm3, ml, l, mm3, m3, in3 or gal"),
    /** m³/s. */
    FLOW("flow", "cm3/min, ml/min, l/min, l/h, in3/min, gpm or m3/s"),
    /** m³/Pa. */
    COMPLIANCE("compliance", "cm3/bar, ml/bar, cm3/MPa, in3/psi or m3/Pa"),
    /** K. */
    TEMPERATURE("temperature", "degC, degF or K"),
    /** 1. */
    FRACTION("fraction", "%, or none for a plain number"),
    /** m²/s. */
    VISCOSITY("kinematic viscosity", "cSt, mm2/s or m2/s"),
    /** V. */
    VOLTAGE("voltage", "V or mV"),
    /** A. */
    CURRENT("current", "mA or A"),
    /** Ω. */
    RESISTANCE("resistance", "Ohm or kOhm"),
    /** 1/s. */
    FREQUENCY("frequency", "Hz, kHz or MHz"),
    /** m. */
    LENGTH("length", "mm, cm, m or in"),
    /** m/s. */
    SPEED("speed", "mm/min, mm/h, in/min or m/s"),
    /** N. */
    FORCE("force", "kN, N or lbf");

    private final String label;
    private final String examples;

    Dimension(String label, String examples) {
        this.label = label;
        this.examples = examples;
    }

    /** The word for it in messages. */
    public String label() {
        return label;
    }

    /** The usual units, for messages. */
    String examples() {
        return examples;
    }
}
