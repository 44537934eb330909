package org.holdtrace.desk.classroom;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import org.holdtrace.trace.Phase;
import org.holdtrace.wording.ShownUnits;
import org.junit.jupiter.api.Test;

class ReplaySourceTest {
    private static final Path DEMO = Path.of("..", "demo-data");

    @Test
    void twoRecordingsStartTheirFirstStrokesTogetherAndKeepTheirPlaceAtAnySpeed() throws IOException {
        ReplaySource.Played worn = ClassWindow.read(DEMO.resolve("02-bramble-bucket-port-a.hold"));
        ReplaySource.Played sound = ClassWindow.read(DEMO.resolve("03-bramble-bucket-port-b.hold"));
        ReplaySource source = new ReplaySource(List.of(sound, worn));
        assertTrue(source.title().startsWith("recorded · 1 × · 0 of "), source.title());
        play(source, 12);
        Lane left = source.lanes().get(0);
        Lane right = source.lanes().get(1);
        assertEquals(left.shown().timeS() - sound.firstStrokeS(), right.shown().timeS() - worn.firstStrokeS(), 0.02);
        assertEquals(Phase.PUMP_UP, left.shown().phase());
        press(source, "PLUS");
        press(source, "PLUS");
        play(source, 2);
        assertEquals(12 + 2 * 5, sinceStart(source), 1);
        press(source, "P");
        play(source, 3);
        assertEquals(12 + 2 * 5, sinceStart(source), 1, "paused");
        press(source, "LEFT");
        play(source, 0.02);
        assertEquals(12, sinceStart(source), 1, "a jump back shows what was there then");
        press(source, "HOME");
        play(source, 0.02);
        assertEquals(Phase.REST, left.shown().phase());
    }

    @Test
    void itsVerdictIsThatOfTheCommandLine() throws IOException {
        ReplaySource.Played worn = ClassWindow.read(DEMO.resolve("02-bramble-bucket-port-a.hold"));
        ReplaySource source = new ReplaySource(List.of(worn));
        Verdict.Told told = source.lanes().get(0).verdict().of(source.lanes().get(0), ShownUnits.METRIC);
        assertEquals(Verdicts.told(worn.results().get(0), ShownUnits.METRIC), told);
        assertEquals("OVER the limit of 12 cm³/min", told.headline());
    }

    private static double sinceStart(ReplaySource source) {
        String title = source.title();
        return Double.parseDouble(title.replaceFirst(".* (\\d+) of \\d+ s$", "$1"));
    }

    private static void play(ReplaySource source, double seconds) {
        for (int i = 0; i < Math.round(seconds / 0.02); i++) {
            source.tick(0.02);
        }
    }

    private static void press(ReplaySource source, String stroke) {
        source.keys().stream()
                .filter(key -> key.stroke().equals(stroke))
                .findFirst()
                .orElseThrow()
                .action()
                .run();
    }
}
