package org.holdtrace.estimate;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.lang.reflect.Array;
import java.lang.reflect.Field;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.holdtrace.quantity.Unit;
import org.holdtrace.rig.RigFile;
import org.holdtrace.session.SetupReader;
import org.holdtrace.session.TestSetup;
import org.holdtrace.trace.Trace;
import org.holdtrace.trace.TraceSegmenter;
import org.junit.jupiter.api.Test;

/** The numbers in docs/method.md are those of the code and of the demo session it follows. */
class MethodDocumentTest {
    private static final Pattern CONSTANT =
            Pattern.compile("\\| `((?:estimate|fluid|trace)\\.[\\w.]+)` \\| ([^|]+) \\|.*");
    private static final Pattern PRIOR =
            Pattern.compile("\\| `([A-Z_]+)`[^|]* \\| (-?[0-9.]+) \\| ([0-9.]+) \\| (normal|log-normal) \\|.*");

    private static List<String> lines() throws IOException {
        return Files.readAllLines(Path.of("..", "docs", "method.md"));
    }

    @Test
    void everyConstantInTheTableIsThatOfTheCode() throws Exception {
        int rows = 0;
        for (String line : lines()) {
            Matcher row = CONSTANT.matcher(line);
            if (row.matches()) {
                double[] written = numbers(row.group(2));
                double[] used = inCode(row.group(1));
                assertEquals(used.length, written.length, row.group(1));
                for (int i = 0; i < used.length; i++) {
                    // The table rounds to three digits.
                    assertEquals(used[i], written[i], 0.001 * Math.abs(used[i]), row.group(1));
                }
                rows++;
            }
        }
        assertTrue(rows > 40, "found only " + rows + " constants");
    }

    @Test
    void whatIsTakenWhereNothingIsStatedIsThatOfTheCode() throws Exception {
        TestSetup unknown = TestSetup.unknown();
        Knowledge knowledge = Knowledge.of(unknown, Double.NaN, 100, OilKnowledge.of(unknown), true);
        int rows = 0;
        for (String line : lines()) {
            Matcher row = PRIOR.matcher(line);
            if (row.matches()) {
                String name = row.group(1);
                Prior prior = knowledge.prior((int) inCode("estimate.Knowledge." + name)[0]);
                assertEquals(prior.centre(), Double.parseDouble(row.group(2)), 1e-9, name);
                assertEquals(prior.spread(), Double.parseDouble(row.group(3)), 0.003 * prior.spread(), name);
                assertEquals(prior.logarithmic(), row.group(4).equals("log-normal"), name);
                rows++;
            }
        }
        assertTrue(rows >= 13, "found only " + rows + " priors");
    }

    /** The readings of the example worked by hand: means of one second, less the mean of second 1 to 5. */
    @Test
    void theReadingsOfTheExampleAreThoseOfTheDemoSession() throws IOException {
        Trace trace = RigFile.read(Path.of("..", "demo-data", "rigs", "03-bramble-bucket-port-b.rig.json"))
                .simulate()
                .trace();
        List<String> lines = lines();
        int at = 0;
        while (!lines.get(at).startsWith("| s | 17 |")) {
            at++;
        }
        double[] seconds = numbers(lines.get(at));
        double[] bar = numbers(lines.get(at + 2));
        double zero = meanBar(trace, 1, 5);
        double[] seen = Arrays.stream(seconds)
                .map(s -> meanBar(trace, s - 0.5, s + 0.5) - zero)
                .toArray();
        // Half a unit of the last digit, and the zero itself is rounded to 0.39 bar.
        assertArrayEquals(bar, seen, 0.06);
        assertEquals(0.39, zero, 0.005);
    }

    /** A doubter compares the table with what the program prints; a tenth of an interval's half-width may part them. */
    @Test
    void theProgramsFiguresBesideThoseByHandAreWhatItPrints() throws IOException {
        Path demo = Path.of("..", "demo-data");
        Trace trace = RigFile.read(demo.resolve("rigs/03-bramble-bucket-port-b.rig.json"))
                .simulate()
                .trace();
        TestSetup setup = SetupReader.read(demo.resolve("03-bramble-bucket-port-b.setup.json"));
        HoldTestResult result =
                HoldTestEstimator.estimate(trace, TraceSegmenter.segment(trace).get(0), setup, EstimateOptions.none());
        HoldTestResult.Leak leak = Results.leak(result);
        HoldTestResult.RouteRate decay = Results.route(result, HoldTestResult.Route.DECAY);
        HoldTestResult.RouteRate tails = Results.route(result, HoldTestResult.Route.STROKE_TAILS);
        assertProgram("| decay, cm³/min |", decay.m3PerS(), decay.lower95(), decay.upper95());
        assertProgram("| stroke tails |", tails.m3PerS(), tails.lower95(), tails.upper95());
        assertProgram("| combined |", leak.m3PerS(), leak.lower95(), leak.upper95());
    }

    private static void assertProgram(String row, double... m3PerS) throws IOException {
        String line = lines().stream()
                .filter(l -> l.startsWith(row) && l.contains(" to "))
                .findFirst()
                .orElseThrow();
        double[] written = numbers(line.split("\\|", -1)[3]);
        double[] found = Arrays.stream(m3PerS).map(Unit.CM3_PER_MIN::fromSi).toArray();
        assertArrayEquals(written, found, 0.05 * (found[2] - found[1]) + 0.005, row);
    }

    private static double meanBar(Trace trace, double fromS, double toS) {
        int a = trace.indexAt(fromS);
        int b = trace.indexAt(toS);
        double sum = 0;
        for (int i = a; i < b; i++) {
            sum += trace.pressurePa(i) / 1e5;
        }
        return sum / (b - a);
    }

    private static double[] numbers(String text) {
        return Pattern.compile("-?[0-9]+(?:\\.[0-9]+)?")
                .matcher(text)
                .results()
                .mapToDouble(found -> Double.parseDouble(found.group()))
                .toArray();
    }

    /** The value of a constant, private or not, of a class below org.holdtrace. */
    private static double[] inCode(String name) throws ReflectiveOperationException {
        int dot = name.lastIndexOf('.');
        Field field =
                Class.forName("org.holdtrace." + name.substring(0, dot)).getDeclaredField(name.substring(dot + 1));
        field.setAccessible(true);
        Object value = field.get(null);
        if (!value.getClass().isArray()) {
            return new double[] {((Number) value).doubleValue()};
        }
        double[] out = new double[Array.getLength(value)];
        for (int i = 0; i < out.length; i++) {
            out[i] = ((Number) Array.get(value, i)).doubleValue();
        }
        return out;
    }
}
