package org.holdtrace.fit;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.IntRange;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class AutocorrelationTest {
    /**
     * ST-10: NIST/ITL Statistical Reference Datasets, univariate: lag-1 autocorrelation from the header of each file, as the
     * test artifact of Apache Commons Math 3.6.1 carries them. NumAcc3 and NumAcc4 have the noise in the eighth and
     * ninth digit of the values, hence fewer digits there.
     */
    @ParameterizedTest
    @CsvSource({
        "NumAcc1,  3,    -0.5,                 1e-12",
        "NumAcc2,  1001, -0.999,               1e-12",
        "NumAcc3,  1001, -0.999,               1e-8",
        "NumAcc4,  1001, -0.999,               1e-7",
        "Mavro,    50,   0.937989183438248,    1e-10",
        "Michelso, 100,  0.535199668621283,    1e-11",
        "Lew,      200,  -0.307304800605679,   1e-13",
        "PiDigits, 5000, -0.00355099287237972, 1e-13"
    })
    void agreesWithNist(String name, int count, double certified, double tolerance) throws IOException {
        double[] y = read(name);
        assertEquals(count, y.length);
        assertEquals(certified, Autocorrelation.at(y, 1), tolerance);
        assertEquals(1, Autocorrelation.at(y, 0), 1e-15);
    }

    /** The data are what stands in the file alone on a line, from the last comment or heading on. */
    private static double[] read(String name) throws IOException {
        List<Double> values = new ArrayList<>();
        try (InputStream in = Autocorrelation.class.getResourceAsStream(
                        "/org/apache/commons/math3/stat/data/" + name + ".txt");
                BufferedReader reader = new BufferedReader(new InputStreamReader(in, StandardCharsets.US_ASCII))) {
            for (String line = reader.readLine(); line != null; line = reader.readLine()) {
                if (line.trim().matches("[-+]?\\d+(\\.\\d*)?")) {
                    values.add(Double.parseDouble(line.trim()));
                }
            }
        }
        return values.stream().mapToDouble(Double::doubleValue).toArray();
    }

    /** The definition, term by term. */
    @Property
    void effectiveSampleSizeIsTheSumOverAllPairs(
            @ForAll @IntRange(min = 1, max = 300) int n, @ForAll @DoubleRange(min = -0.99, max = 0.99) double phi) {
        double sum = 0;
        for (int i = 0; i < n; i++) {
            for (int j = 0; j < n; j++) {
                sum += Math.pow(phi, Math.abs(i - j));
            }
        }
        assertEquals(n * (double) n / sum, Autocorrelation.effectiveSampleSize(n, phi), 1e-8 * n);
    }

    /** GU-19: Bayley and Hammersley 1946 (from memory): n (1 − φ)/(1 + φ) for many values. */
    @Test
    void manyAlikeValuesCountForFew() {
        assertEquals(1_000_000 / 19.0, Autocorrelation.effectiveSampleSize(1_000_000, 0.9), 1);
        assertEquals(100, Autocorrelation.effectiveSampleSize(100, 0), 1e-12);
        assertEquals(1, Autocorrelation.effectiveSampleSize(100, 1 - 1e-9), 1e-6);
    }

    @Test
    void nonsenseIsRefused() {
        assertThrows(IllegalArgumentException.class, () -> Autocorrelation.at(new double[] {1, 1, 1}, 1));
        assertThrows(IllegalArgumentException.class, () -> Autocorrelation.at(new double[] {1, Double.NaN}, 1));
        assertThrows(IllegalArgumentException.class, () -> Autocorrelation.at(new double[] {1, 2}, 2));
        assertThrows(IllegalArgumentException.class, () -> Autocorrelation.effectiveSampleSize(10, 1));
        assertThrows(IllegalArgumentException.class, () -> Autocorrelation.effectiveSampleSize(10, Double.NaN));
        assertThrows(IllegalArgumentException.class, () -> Autocorrelation.effectiveSampleSize(0, 0));
    }
}
