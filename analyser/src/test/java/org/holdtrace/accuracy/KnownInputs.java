package org.holdtrace.accuracy;

/** Which of the inputs that fix the compliance a setup states. Each is stated with its standard uncertainty. */
public enum KnownInputs {
    STROKES("strokes", true, false, false, false, false),
    VOLUME_MODULUS_LINE("volume, modulus, line", false, true, true, true, false),
    VOLUME_LINE("volume, line", false, true, false, true, false),
    VOLUME("volume", false, true, false, false, false),
    STROKES_VOLUME_MODULUS_LINE("strokes, volume, modulus, line", true, true, true, true, false),
    STROKES_VOLUME("strokes, volume", true, true, false, false, false),
    STROKES_LINE("strokes, line", true, false, false, true, false),
    BLED("bled oil", false, false, false, false, true),
    BLED_VOLUME_LINE("bled oil, volume, line", false, true, false, true, true),
    STROKES_BLED("strokes, bled oil", true, false, false, false, true),
    NOTHING("nothing", false, false, false, false, false);

    private final String label;
    final boolean strokes;
    final boolean volume;
    final boolean modulus;
    final boolean line;
    final boolean bled;

    KnownInputs(String label, boolean strokes, boolean volume, boolean modulus, boolean line, boolean bled) {
        this.label = label;
        this.strokes = strokes;
        this.volume = volume;
        this.modulus = modulus;
        this.line = line;
        this.bled = bled;
    }

    /** Its name in reports. */
    public String label() {
        return label;
    }
}
