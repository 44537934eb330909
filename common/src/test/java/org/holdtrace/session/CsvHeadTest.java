package org.holdtrace.session;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Traces whose header does not tell. */
class CsvHeadTest {
    @TempDir
    Path folder;

    @Test
    void theTopOfATraceIsShownWhateverItsColumnsAre() throws IOException {
        CsvHead head = CsvTraceReader.head(file("# bench 3\nt;\"P1 (psi)\";n\n0,0;1,5;a\n0,1;2,5;b\n"));
        assertEquals(List.of("t", "P1 (psi)", "n"), head.names());
        assertEquals(List.of(List.of("0,0", "1,5", "a"), List.of("0,1", "2,5", "b")), head.rows());
        assertEquals(false, head.tells());
        assertEquals(
                true,
                CsvTraceReader.head(file("time [s],pressure [bar]\n0,1\n")).tells());
        assertThrows(InputException.class, () -> CsvTraceReader.head(file("")));
    }

    @Test
    void onlyWhatHoldsTwoColumnsOfNumbersCouldBeATrace() throws IOException {
        assertTrue(CsvTraceReader.head(file("t;P1\n0,0;1,5\n0,1;2,5\n")).couldBeTrace());
        assertTrue(CsvTraceReader.head(file("when,P1\n2026-03-01T08:00:00Z,\n2026-03-01T08:00:01Z,3e2\n"))
                .couldBeTrace());
        assertFalse(CsvTraceReader.head(file("part,price\nseal,12\nhose,30\n")).couldBeTrace(), "a price list");
        assertFalse(CsvTraceReader.head(file("time,pressure\n")).couldBeTrace(), "nothing below the header");
        byte[] noise = new byte[20_000];
        for (long seed = 1; seed <= 200; seed++) {
            new Random(seed).nextBytes(noise);
            Path noisy = Files.write(folder.resolve("noise.csv"), noise);
            boolean could;
            try {
                could = CsvTraceReader.head(noisy).couldBeTrace();
            } catch (InputException e) {
                could = false; // no CSV at all
            }
            assertFalse(could, "random bytes of seed " + seed);
        }
    }

    @Test
    void aPersonMaySayWhatTheColumnsAre() throws IOException {
        CsvTraceReader.Reading reading = CsvTraceReader.readAll(
                file("t;P1;n\n0,0;1,5;a\n0,1;2,5;b\n"),
                new CsvPlan(List.of("time [min]", "pressure [psi]", ""), false));
        assertEquals(2, reading.trace().size());
        assertEquals(6, reading.trace().timeS(1), 1e-12);
        // 1 psi = 6894.757293168 Pa (NIST SP 811).
        assertEquals(2.5 * 6894.757293168, reading.trace().pressurePa(1), 1e-6);
    }

    @Test
    void withoutAHeaderTheFirstLineIsTheFirstSample() throws IOException {
        CsvTraceReader.Reading reading = CsvTraceReader.readAll(
                file("0.5,100\n0.6,101\n0.7,102\n"), new CsvPlan(List.of("time [s]", "pressure [bar]"), true));
        assertEquals(3, reading.trace().size());
        assertEquals(0.5, reading.trace().timeS(0), 1e-12);
        assertEquals(100e5, reading.trace().pressurePa(0), 1e-6);
    }

    @Test
    void aPlanForAnotherNumberOfColumnsIsRefused() throws IOException {
        Path file = file("a,b,c\n1,2,3\n");
        InputException refused = assertThrows(
                InputException.class,
                () -> CsvTraceReader.readAll(file, new CsvPlan(List.of("time [s]", "pressure [bar]"), false)));
        assertEquals(file + ", line 1: 3 columns; expected 2, as somebody said; say it anew", refused.getMessage());
    }

    private Path file(String text) throws IOException {
        return Files.writeString(folder.resolve("trace.csv"), text);
    }
}
