package org.holdtrace.library;

import org.holdtrace.line.OilVolume;
import org.holdtrace.quantity.Dimension;
import org.holdtrace.quantity.Quantity;
import org.holdtrace.quantity.QuantityException;
import org.holdtrace.quantity.QuantityParser;

/**
 * A part of what holds oil under pressure, as somebody wrote it down: a stated volume, or a round bore of a length, less
 * the rod in it.
 *
 * @param name what it is: "rod side", "hose", "adapters"
 * @param bore its inner diameter, such as "80 mm"; empty where its volume is stated
 * @param rod the diameter of the rod in it; empty for none
 * @param length how long the oil in it is: the stroke, the length of a hose; empty where its volume is stated
 * @param volume its volume, such as "3 ± 1 cm3"; empty where bore and length are
 */
public record VolumePart(String name, String bore, String rod, String length, String volume) {
    /**
     * How much oil it holds, m³.
     *
     * @throws QuantityException where it cannot be told from what was written, and why
     */
    public Quantity volumeM3() {
        if (!volume.isBlank()) {
            if (!bore.isBlank() || !length.isBlank() || !rod.isBlank()) {
                throw new QuantityException(
                        "both a volume and measures", "one of them: the volume, or bore and length");
            }
            return positive(QuantityParser.parse(volume, Dimension.VOLUME), volume);
        }
        if (bore.isBlank() || length.isBlank()) {
            throw new QuantityException(
                    bore.isBlank() && length.isBlank() ? "no measures" : bore.isBlank() ? "no bore" : "no length",
                    "bore and length, as in \"80 mm\" and \"210 ± 2 mm\", or a volume");
        }
        Quantity boreM = length(bore);
        Quantity lengthM = length(length);
        if (rod.isBlank()) {
            return OilVolume.ofBore(boreM, lengthM);
        }
        Quantity rodM = length(rod);
        if (!(rodM.value() < boreM.value())) {
            throw new QuantityException("a rod of " + rod + " in a bore of " + bore, "a rod thinner than the bore");
        }
        return OilVolume.aroundRod(boreM, rodM, lengthM);
    }

    private static Quantity length(String text) {
        return positive(QuantityParser.parse(text, Dimension.LENGTH), text);
    }

    private static Quantity positive(Quantity quantity, String text) {
        if (!(quantity.value() > 0)) {
            throw new QuantityException("\"" + text + "\" is not possible", "a measure above 0");
        }
        return quantity;
    }
}
