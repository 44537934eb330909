package org.holdtrace.line;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.List;
import java.util.Random;
import org.holdtrace.quantity.Quantity;
import org.junit.jupiter.api.Test;

class OilVolumeTest {
    /** Areas of the bore and rod sizes of ISO 3320, 80 mm and 56 mm: 50.27 cm² and 24.63 cm² (cylinder tables, from memory). */
    @Test
    void aCylinderHoldsAreaTimesStroke() {
        Quantity bore = new Quantity(0.080, 0);
        Quantity stroke = new Quantity(0.1, 0);
        assertEquals(502.7e-6, OilVolume.ofBore(bore, stroke).value(), 0.05e-6);
        assertEquals(
                (502.7 - 246.3) * 1e-6,
                OilVolume.aroundRod(bore, new Quantity(0.056, 0), stroke).value(),
                0.1e-6);
        assertThrows(IllegalArgumentException.class, () -> OilVolume.aroundRod(bore, bore, stroke));
    }

    /** A second route: draws of the measures (GUM Supplement 1), 40 000 of them, so 0.35 % of a standard deviation. */
    @Test
    void theUncertaintyIsThatOfDrawnMeasures() {
        Quantity bore = new Quantity(0.080, 0.0002);
        Quantity rod = new Quantity(0.056, 0.0003);
        Quantity length = new Quantity(0.21, 0.002);
        Quantity hose = OilVolume.ofBore(new Quantity(0.004, 0.0001), new Quantity(2, 0.01));
        Quantity stated = OilVolume.sum(List.of(OilVolume.aroundRod(bore, rod, length), hose));
        Random random = new Random(5);
        double sum = 0;
        double squares = 0;
        int draws = 40_000;
        for (int i = 0; i < draws; i++) {
            double d = draw(bore, random);
            double r = draw(rod, random);
            double h = draw(new Quantity(0.004, 0.0001), random);
            double v =
                    Math.PI / 4 * ((d * d - r * r) * draw(length, random) + h * h * draw(new Quantity(2, 0.01), random))
                            - stated.value();
            sum += v;
            squares += v * v;
        }
        double mean = sum / draws;
        assertEquals(1, Math.sqrt(squares / draws - mean * mean) / stated.standardUncertainty(), 0.02);
    }

    private static double draw(Quantity quantity, Random random) {
        return quantity.value() + quantity.standardUncertainty() * random.nextGaussian();
    }
}
