package org.holdtrace.adc;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import org.holdtrace.adc.StoredCalibration.Check;
import org.holdtrace.session.InputException;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class CalibrationStoreTest {
    @TempDir
    Path folder;

    private static final StoredCalibration FULL = StoredCalibration.through(
                    List.of(new Check(0.1003, 0), new Check(0.5, 2.0001e7), new Check(0.9, 4e7)),
                    Optional.of("reference \"gauge\" 3, invented"),
                    Optional.of(LocalDate.of(2026, 11, 25)))
            .withZero(0.10021, Optional.of(LocalDate.of(2026, 11, 26)));

    @Test
    void whatIsPutIsReadBackTheSame() throws IOException {
        CalibrationStore store = new CalibrationStore(folder.resolve("state"));
        assertEquals(Map.of(), store.all());
        store.put("pressure", FULL);
        store.put("oil temperature", StoredCalibration.none());
        store.put("second pressure", StoredCalibration.none().withZero(1e-4, Optional.empty()));
        CalibrationStore later = new CalibrationStore(folder.resolve("state"));
        assertEquals(Optional.of(FULL), later.of("pressure"));
        assertEquals(Optional.of(StoredCalibration.none()), later.of("oil temperature"));
        assertEquals(
                1e-4,
                later.of("second pressure").orElseThrow().zero().orElseThrow().signal());
        assertEquals(Optional.empty(), later.of("other"));
    }

    @Test
    void nothingButTheFileItselfIsLeftBehind() throws IOException {
        CalibrationStore store = new CalibrationStore(folder);
        store.put("pressure", FULL);
        // What a power cut leaves of the next one is written over.
        Files.writeString(folder.resolve("calibration.json.new"), "{ \"inp");
        store.put("pressure", StoredCalibration.none());
        try (Stream<Path> files = Files.list(folder)) {
            assertEquals(List.of(store.file()), files.toList());
        }
    }

    @Test
    void aFileThatIsNoCalibrationIsNotReadAsNone() throws IOException {
        CalibrationStore store = new CalibrationStore(folder);
        Files.writeString(store.file(), "{ \"inputs\": [ { \"name\": \"pressure\", \"sero\": {} } ] }");
        InputException e = assertThrows(InputException.class, store::all);
        assertTrue(e.getMessage().contains("unknown field \"sero\"; expected \"zero\"?"), e.getMessage());
        Files.writeString(
                store.file(),
                "{ \"inputs\": [ { \"name\": \"p\", \"low\": { \"signal\": \"0.1\", \"siValue\": \"0\" },"
                        + " \"high\": { \"signal\": \"0.1\", \"siValue\": \"1\" } } ] }");
        assertTrue(assertThrows(InputException.class, store::all).getMessage().contains("line 1"));
        assertThrows(InputException.class, () -> store.put("pressure", FULL));
    }
}
