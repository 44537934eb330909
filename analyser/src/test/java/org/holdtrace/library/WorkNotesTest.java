package org.holdtrace.library;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.holdtrace.estimate.EstimateOptions;
import org.holdtrace.estimate.HoldTestEstimator;
import org.holdtrace.estimate.HoldTestResult;
import org.holdtrace.quantity.QuantityException;
import org.holdtrace.session.InputException;
import org.holdtrace.trace.Boundaries;
import org.holdtrace.trace.Boundary;
import org.holdtrace.trace.HoldTest;
import org.holdtrace.trace.TraceSegmenter;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class WorkNotesTest {
    private static final Path DEMO = Path.of("..", "demo-data", "08-thistle-clamp.csv");

    @TempDir
    Path folder;

    @Test
    void notesAreReadAsTheyWereWritten() throws IOException {
        WorkNotes notes = WorkNotes.NONE
                .with(1, Boundary.HOLD_STARTS, 34.2, 36.05)
                .with(2, Boundary.HOLD_ENDS, 150.1, 120)
                .withParts(List.of(
                        new VolumePart("rod side", "80 mm", "56 mm", "210 ± 2 mm", ""),
                        new VolumePart("adapters", "", "", "", "3 ± 1 cm3")));
        assertEquals(notes, WorkNotes.parse(notes.json(), "x.work.json"));
        assertEquals(
                """
                {
                  "movedBoundaries" : [ {
                    "holdTest" : 1,
                    "boundary" : "hold starts",
                    "found" : "34.2 s",
                    "to" : "36.0 s"
                  } ]
                }
                """,
                new String(
                        WorkNotes.NONE
                                .with(1, Boundary.HOLD_STARTS, 34.2, 35)
                                .with(1, Boundary.HOLD_STARTS, 34.2, 36)
                                .json(),
                        StandardCharsets.UTF_8));
    }

    @Test
    void theEstimateFollowsAMovedBoundaryAndSaysSo() throws IOException {
        InputFile input = new InputFile(DEMO, "clamp");
        Recording recording = Recordings.read(input);
        List<HoldTest> found = TraceSegmenter.segment(recording.trace());
        double foundS = Boundaries.of(found.get(0)).at(Boundary.HOLD_STARTS).orElseThrow();
        WorkNotes notes = WorkNotes.NONE.with(1, Boundary.HOLD_STARTS, foundS, foundS + 10);
        HoldTest moved = notes.applied(recording.trace(), found).get(0);
        assertEquals(foundS + 10, Boundaries.of(moved).at(Boundary.HOLD_STARTS).orElseThrow(), 1e-9);
        HoldTestResult result = notes.noted(HoldTestEstimator.estimate(
                recording.trace(), moved, Recordings.setupOf(input, recording), EstimateOptions.none()));
        HoldTestResult.Caution last = result.cautions().get(result.cautions().size() - 1);
        assertEquals("boundary-by-hand", last.code());
    }

    @Test
    void aMoveThatDoesNotFitIsNotDoneAndSaid() throws IOException {
        InputFile input = new InputFile(DEMO, "clamp");
        Recording recording = Recordings.read(input);
        List<HoldTest> found = TraceSegmenter.segment(recording.trace());
        WorkNotes notes = WorkNotes.NONE.with(1, Boundary.HOLD_STARTS, 3, 5);
        assertEquals(found, notes.applied(recording.trace(), found));
        HoldTestResult result = notes.noted(HoldTestEstimator.estimate(
                recording.trace(), found.get(0), Recordings.setupOf(input, recording), EstimateOptions.none()));
        assertEquals(
                new HoldTestResult.Caution(
                        "boundary-not-moved",
                        "Not moved: \"hold starts\" from 3 s to 5 s, as somebody wished, does not fit this hold test; it is"
                                + " where it was found."),
                result.cautions().get(result.cautions().size() - 1));
    }

    @Test
    void whatIsWrongInAFileIsNamedWithItsLine() throws IOException {
        Path recording = folder.resolve("a.csv");
        Files.writeString(
                folder.resolve("a.work.json"), "{ \"movedBoundaries\": [\n{ \"boundary\": \"hold begins\" } ] }");
        InputException refused =
                assertThrows(InputException.class, () -> WorkNotes.beside(new InputFile(recording, "a")));
        assertEquals(
                folder.resolve("a.work.json")
                        + ", line 2, field movedBoundaries[1].boundary: \"hold begins\"; expected one of \"pumping starts\","
                        + " \"plateau starts\", \"pumping ends\", \"hold starts\", \"hold ends\"",
                refused.getMessage().lines().findFirst().orElseThrow());
    }

    @Test
    void aPartTellsItsVolumeOrWhatIsMissing() {
        assertEquals(502.65e-6, part("80 mm", "", "10 cm", "").volumeM3().value(), 0.01e-6);
        assertEquals(256.35e-6, part("80 mm", "56 mm", "10 cm", "").volumeM3().value(), 0.01e-6);
        assertEquals(3e-6, part("", "", "", "3 ± 1 cm3").volumeM3().value(), 1e-15);
        assertEquals(
                "no length; expected bore and length, as in \"80 mm\" and \"210 ± 2 mm\", or a volume",
                assertThrows(
                                QuantityException.class,
                                () -> part("80 mm", "", "", "").volumeM3())
                        .getMessage());
        assertThrows(
                QuantityException.class, () -> part("50 mm", "56 mm", "1 m", "").volumeM3());
        assertThrows(
                QuantityException.class, () -> part("-50 mm", "", "1 m", "").volumeM3());
    }

    private static VolumePart part(String bore, String rod, String length, String volume) {
        return new VolumePart("part", bore, rod, length, volume);
    }
}
