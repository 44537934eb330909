package org.holdtrace.session;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import org.holdtrace.trace.Trace;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class CsvTraceReaderTest {
    private static CsvTraceReader.Reading readAll(String csv, Charset charset) throws IOException {
        return CsvTraceReader.read(new ByteArrayInputStream(csv.getBytes(charset)), "a.csv");
    }

    private static Trace read(String csv) throws IOException {
        return readAll(csv, StandardCharsets.UTF_8).trace();
    }

    private static double[] timesS(Trace trace) {
        return IntStream.range(0, trace.size()).mapToDouble(trace::timeS).toArray();
    }

    private static double[] pressuresPa(Trace trace) {
        return IntStream.range(0, trace.size()).mapToDouble(trace::pressurePa).toArray();
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "time [s],pressure [bar]\n0.5,1.25\n1.5,-2.5e0\n",
                "time [s];pressure [bar]\n0,5;1,25\n1,5;-2,5\n",
                "time [s]\tpressure [bar]\n0,5\t1,25\n1,5\t-2,50\n",
                "time [s];pressure [bar]\n0.5;1.25\n1.5;-2.5\n",
                "pressure [bar],time [s]\n1.25,0.5\n-2.5,1.5",
                "time [ms],pressure [kPa]\r\n500,125\r\n1500,-250\r\n",
                "time [min],pressure [MPa]\n0.00833333333333333333,0.125\n0.025,-0.25\n",
                "time [s],pressure [Pa]\n0.5,125000\n+1.5,-250000\n",
                "\"time [s]\";\"pressure [bar]\"\n\"0,5\";\"1,25\"\n\"1,5\";\"-2,5\"\n",
                "\uFEFFtime [s],pressure [bar]\n0.5,1.25\n1.5,-2.5\n",
                "# port A, cold\n\n# time; pressure\ntime [s],pressure [bar]\n# first\n0.5,1.25\n\n1.5,-2.5\n# end\n",
                " Time  [ s ] , Pressure[bar]\n 0.5 , 1.25\n1.5,\t-2.5\n",
                "gauge,time [s],note,pressure [bar]\n1,0.5,\"a, b\",1.25\n2,1.5,,-2.5\n",
                "time [s],pressure [bar]\n0.5,1.25,\n1.5,-2.5,\n",
            })
    void oneTraceWrittenManyWaysIsOneTrace(String csv) throws IOException {
        Trace trace = read(csv);
        assertArrayEquals(new double[] {0.5, 1.5}, timesS(trace), 1e-15);
        assertArrayEquals(new double[] {1.25e5, -2.5e5}, pressuresPa(trace), 1e-10);
        assertFalse(trace.hasOilTemperature());
        assertFalse(trace.hasAmbientTemperature());
        assertEquals(Optional.empty(), trace.start());
    }

    @Test
    void utf16WithAByteOrderMarkIsRead() throws IOException {
        Trace trace = readAll("time [s];pressure [bar]\n1;2\n", StandardCharsets.UTF_16)
                .trace();
        assertEquals(2e5, trace.pressurePa(0));
    }

    @Test
    void theDegreeSignOfAFileWithOneByteACharacterIsUnderstood() throws IOException {
        String csv = "# Öl von Müller\ntime [s],pressure [bar],oil temperature [°C]\n0,1,21.85\n";
        for (String encoding : List.of("ISO-8859-1", "windows-1252", "ISO-8859-15", "UTF-8")) {
            Trace trace = readAll(csv, Charset.forName(encoding)).trace();
            assertEquals(295.0, trace.oilTemperatureK(0), 1e-9, encoding);
        }
    }

    @Test
    void psiFollowsItsDefinition() throws IOException {
        // UN-02: 1 bar = 14.503773773 psi [calc from NIST SP 811]
        assertEquals(1e5, read("time [s],pressure [psi]\n0,14.503773773\n").pressurePa(0), 1e-4);
    }

    @Test
    void temperaturesAreReadAndMayBeMissingInSomeRows() throws IOException {
        Trace trace = read("""
                time [s],pressure [bar],oil temperature [°C],ambient temperature [degF]
                0,1,20,
                1,1,,32
                2,1,-5.5,212
                """);
        assertEquals(293.15, trace.oilTemperatureK(0), 1e-12);
        assertTrue(Double.isNaN(trace.oilTemperatureK(1)));
        assertEquals(267.65, trace.oilTemperatureK(2), 1e-12);
        assertTrue(Double.isNaN(trace.ambientTemperatureK(0)));
        assertEquals(273.15, trace.ambientTemperatureK(1), 1e-12);
        assertEquals(373.15, trace.ambientTemperatureK(2), 1e-12);
        assertEquals(
                300,
                read("time [s],pressure [bar],oil temperature [K]\n0,1,300\n").oilTemperatureK(0));
    }

    @Test
    void instantsCountFromTheFirst() throws IOException {
        Trace trace = read("""
                time [UTC],pressure [bar]
                2026-02-28T23:59:59.75Z,1
                2026-03-01T02:00:00.000000001+02:00,2
                2026-02-28T19:00:10.5-0500,3
                2026-03-01 00:01,4
                """);
        assertEquals(Optional.of(Instant.parse("2026-02-28T23:59:59.750Z")), trace.start());
        assertArrayEquals(new double[] {0, 0.250000001, 10.75, 60.25}, timesS(trace), 1e-12);
        assertEquals(
                1.5,
                read("time [UTC];pressure [bar]\n2026-03-01T08:00:00,25Z;1\n2026-03-01T08:00:01,75Z;1,5\n")
                        .timeS(1));
    }

    @Test
    void columnsOfOtherNamesAreKeptOutAndNamed() throws IOException {
        CsvTraceReader.Reading reading =
                readAll("pump,time [s],flow [l/min],pressure [bar]\nx,1,y,2\n", StandardCharsets.UTF_8);
        assertEquals(List.of("pump", "flow [l/min]"), reading.ignoredColumns());
    }

    @Test
    void repeatedStampsAndGapsAreKept() throws IOException {
        assertArrayEquals(new double[] {0, 0, 1, 60}, timesS(read("time [s],pressure [bar]\n0,1\n0,2\n1,3\n60,4\n")));
    }
}
