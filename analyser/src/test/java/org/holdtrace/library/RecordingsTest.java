package org.holdtrace.library;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.function.DoubleUnaryOperator;
import org.holdtrace.session.InputException;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class RecordingsTest {
    @TempDir
    Path folder;

    /** A pump-up to 120 bar and a hold, read by a transducer with a small zero error. */
    private Path trace(DoubleUnaryOperator reading) throws IOException {
        StringBuilder rows = new StringBuilder("time [s],pressure [bar]\n");
        for (int i = 0; i < 200; i++) {
            double bar = Math.max(0, Math.min(120, i - 40)) - 0.2;
            rows.append(String.format(Locale.ROOT, "%.2f,%.3f%n", 0.02 * i, reading.applyAsDouble(bar)));
        }
        return Files.writeString(folder.resolve("a.csv"), rows);
    }

    private List<String> notes(DoubleUnaryOperator reading) throws IOException {
        Path file = trace(reading);
        return Recordings.read(new InputFile(file, "a")).notes();
    }

    @Test
    void aTransducerWiredTheWrongWayRoundIsRefused() throws IOException {
        Path file = trace(bar -> -bar);
        InputException refused = assertThrows(InputException.class, () -> Recordings.read(new InputFile(file, "a")));
        assertEquals(
                file
                        + ": pressures down to -119.8 bar and none above 0.2 bar; expected gauge pressure, which cannot lie below"
                        + " a vacuum, -1 bar: is the transducer wired the wrong way round, or the sign of its calibration"
                        + " wrong?",
                refused.getMessage());
    }

    @Test
    void aSignalLostForAWhileIsNotedAndASingleBadReadingOrAZeroErrorIsNot() throws IOException {
        assertEquals(List.of(), notes(bar -> bar));
        assertEquals(List.of(), notes(bar -> bar - 1.5));
        int[] call = {0};
        assertEquals(List.of(), notes(bar -> call[0]++ == 100 ? -62.5 : bar));
        call[0] = 0;
        assertEquals(
                List.of("readings go down to -62.5 bar, below a vacuum: the transducer's signal was lost there, or its"
                        + " calibration is wrong"),
                notes(bar -> call[0]++ / 5 == 20 ? -62.5 : bar));
    }
}
