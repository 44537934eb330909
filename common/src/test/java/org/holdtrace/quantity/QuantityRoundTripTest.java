package org.holdtrace.quantity;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.ArrayList;
import java.util.List;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.Scale;
import org.junit.jupiter.api.Test;

class QuantityRoundTripTest {
    @Provide
    Arbitrary<Unit> units() {
        List<Unit> units = new ArrayList<>();
        for (Dimension dimension : Dimension.values()) {
            for (String name : Unit.namesOf(dimension)) {
                units.add(Unit.of(dimension, name));
            }
        }
        return Arbitraries.of(units);
    }

    @Property
    void whatIsWrittenReadsBackToTheSameNumbers(
            @ForAll("units") Unit unit,
            @ForAll @Scale(9) @DoubleRange(min = -1e12, max = 1e12) double value,
            @ForAll @Scale(9) @DoubleRange(min = 0, max = 1e6) double uncertainty) {
        Quantity quantity = new Quantity(unit.toSi(value), unit.differenceToSi(uncertainty));
        String text = QuantityFormat.format(quantity, unit);
        assertEquals(quantity, QuantityParser.parse(text, unit.dimension()), text);
    }

    @Property
    void aValueGoesToSiAndBack(
            @ForAll("units") Unit unit, @ForAll @Scale(9) @DoubleRange(min = -1e12, max = 1e12) double value) {
        // Two roundings and, for a temperature, those of its offset.
        assertEquals(value, unit.fromSi(unit.toSi(value)), Math.abs(value) * 4e-16 + (unit.hasOffset() ? 2e-13 : 0));
    }

    @Property
    void aPercentageAndItsAbsoluteFormAreTheSame(
            @ForAll @Scale(9) @DoubleRange(min = 0.001, max = 1e6) double value,
            @ForAll @Scale(9) @DoubleRange(min = 0, max = 200) double percent) {
        Quantity relative = QuantityParser.parse(value + " bar ± " + percent + " %", Dimension.PRESSURE);
        assertEquals(value * 1e5 * percent / 100, relative.standardUncertainty(), value * percent * 1e-12);
    }

    @Property
    void textThatIsNoQuantityIsRefusedAndNeverBreaksTheReader(@ForAll String text) {
        String noNumber = "x" + text;
        assertThrows(QuantityException.class, () -> QuantityParser.parse(noNumber, Dimension.VOLUME));
    }

    @Test
    void textIsShortWhereTheNumberIs() {
        assertEquals(
                "48 ± 5 cm3", QuantityFormat.format(QuantityParser.parse("48 ± 5 cm3", Dimension.VOLUME), Unit.CM3));
        assertEquals(
                "22 ± 2 degC",
                QuantityFormat.format(QuantityParser.parse("22 ± 2 degC", Dimension.TEMPERATURE), Unit.DEG_C));
        assertEquals("1.42 GPa", QuantityFormat.format(Quantity.exactly(1.42e9), Unit.GPA));
        assertEquals(
                "1e+20 Pa",
                QuantityFormat.format(Quantity.exactly(1e20), Unit.PA).replace("E", "e"));
        assertEquals("0 bar", QuantityFormat.format(Quantity.exactly(0), Unit.BAR));
    }
}
