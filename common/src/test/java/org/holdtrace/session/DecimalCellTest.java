package org.holdtrace.session;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Random;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import org.junit.jupiter.api.Test;

/** The JDK's own {@link Double#parseDouble} is the outside truth here. */
class DecimalCellTest {
    private static void assertLikeTheJdk(String text) {
        double read = new DecimalCell(false).read(("[" + text + "]").toCharArray(), 1, 1 + text.length());
        assertEquals(Double.doubleToRawLongBits(Double.parseDouble(text)), Double.doubleToRawLongBits(read), text);
    }

    @Property
    void anyDoubleReadsAsTheJdkReadsIt(@ForAll double value) {
        assertLikeTheJdk(Double.toString(value));
    }

    @Test
    void plainDecimalsOfEveryLengthReadAsTheJdkReadsThem() {
        Random random = new Random(8);
        for (int i = 0; i < 200_000; i++) {
            long digits = random.nextLong() >>> random.nextInt(64);
            String text = Long.toUnsignedString(digits);
            int point = random.nextInt(text.length() + 1);
            String decimal = text.substring(0, point) + "." + text.substring(point);
            if (decimal.length() == 1) {
                continue;
            }
            String exponent = random.nextInt(3) == 0 ? "e" + (random.nextInt(80) - 40) : "";
            assertLikeTheJdk((random.nextBoolean() ? "-" : "") + decimal + exponent);
        }
    }

    @Test
    void numbersOnTheEdgeReadAsTheJdkReadsThem() {
        for (String text : new String[] {
            "0",
            "-0",
            "0.0",
            "-0.000",
            "00012.5000",
            "9007199254740992",
            "9007199254740993",
            "9007199254740991e22",
            "1e22",
            "1e23",
            "1e-22",
            "1e-23",
            "123456789012345678",
            "1234567890123456789",
            "0.000000000000000000001",
            "4.9e-324",
            "1.7976931348623157e308",
            "2.2250738585072012e-308",
            "1e-9999999999",
            "+5",
            "5.",
            ".5"
        }) {
            assertLikeTheJdk(text);
        }
    }

    @Test
    void aCommaIsAMarkWhereItMayBe() {
        String text = "12,75";
        assertEquals(12.75, new DecimalCell(true).read(text.toCharArray(), 0, 5));
        assertEquals(Double.NaN, new DecimalCell(false).read(text.toCharArray(), 0, 5));
        String tooLongForTheShortWay = "123456789012345678,75";
        assertEquals(
                Double.parseDouble("123456789012345678.75"),
                new DecimalCell(true).read(tooLongForTheShortWay.toCharArray(), 0, 21));
    }
}
