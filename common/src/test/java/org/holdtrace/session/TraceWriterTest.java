package org.holdtrace.session;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.StringWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.Scale;
import net.jqwik.api.constraints.Size;
import org.holdtrace.trace.Trace;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class TraceWriterTest {
    private static String write(Trace trace) throws IOException {
        StringWriter out = new StringWriter();
        TraceWriter.write(trace, out);
        return out.toString();
    }

    private static Trace read(String csv) throws IOException {
        return CsvTraceReader.read(new ByteArrayInputStream(csv.getBytes(StandardCharsets.UTF_8)), "a.csv")
                .trace();
    }

    @Test
    void aTraceIsWrittenAsAPersonWouldReadIt() throws IOException {
        Trace trace = new Trace(
                new double[] {0, 0.004, 0.1 + 0.2},
                new double[] {0, 119.99e5, -0.12e5},
                new double[] {295.15, Double.NaN, 295.25},
                new double[] {293.15, 293.15, 273.15},
                Optional.of(Instant.parse("2026-03-01T08:00:00Z")));
        assertEquals("""
                # time 0 is 2026-03-01T08:00:00Z
                time [s],pressure [bar],oil temperature [degC],ambient temperature [degC]
                0.0,0.0,22.0,20.0
                0.004,119.99,,20.0
                0.30000000000000004,-0.12,22.1,0.0
                """, write(trace));
    }

    @Test
    void commentsStandAboveTheTraceAndAreNotReadBack(@TempDir Path folder) throws IOException {
        Path file = folder.resolve("a.csv");
        TraceWriter.write(Trace.of(new double[] {0}, new double[] {1e5}), file, List.of("not measured"));
        assertEquals("""
                # not measured
                time [s],pressure [bar]
                0.0,1.0
                """, Files.readString(file));
        assertEquals(1, CsvTraceReader.read(file).size());
    }

    @Property
    void aTraceReadsBackToItsNeighbourAtMost(
            @ForAll @Size(min = 1, max = 20) @DoubleRange(min = 0, max = 1e5) @Scale(9) double[] times,
            @ForAll @DoubleRange(min = -1e5, max = 1e8) @Scale(6) double pressurePa)
            throws IOException {
        // Ranges of an array's annotations do not always reach its elements; times beyond 1e12 s are refused.
        double[] timeS = Arrays.stream(times).map(t -> Math.abs(t) % 1e9).toArray();
        Arrays.sort(timeS);
        double[] pressuresPa = new double[timeS.length];
        for (int i = 0; i < timeS.length; i++) {
            pressuresPa[i] = pressurePa * (1 + i / 7.0);
        }
        Trace back = read(write(Trace.of(timeS, pressuresPa)));
        for (int i = 0; i < timeS.length; i++) {
            assertEquals(timeS[i], back.timeS(i));
            assertEquals(pressuresPa[i], back.pressurePa(i), Math.ulp(pressuresPa[i]));
        }
    }

    @Property
    void whatWasReadFromBarsIsWrittenAndReadUnchanged(@ForAll @DoubleRange(min = -1, max = 1000) @Scale(8) double bar)
            throws IOException {
        Trace first = read("time [s],pressure [bar]\n0," + bar + "\n");
        assertEquals(first.pressurePa(0), read(write(first)).pressurePa(0));
    }
}
