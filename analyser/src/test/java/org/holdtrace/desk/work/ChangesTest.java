package org.holdtrace.desk.work;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.lang.reflect.InvocationTargetException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicLong;
import java.util.function.BooleanSupplier;
import javax.swing.SwingUtilities;
import org.holdtrace.library.InputFile;
import org.holdtrace.quantity.Quantity;
import org.holdtrace.session.SetupField;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Without a window. */
class ChangesTest {
    private static final Path DEMO = Path.of("..", "demo-data");

    @TempDir
    Path folder;

    private final Workspace workspace = new Workspace();
    private final List<String> trouble = new ArrayList<>();
    private final AtomicLong clockMs = new AtomicLong();
    private final Changes changes = new Changes(
            workspace,
            new Changes.Trouble() {
                @Override
                public void changedByAnother(Path recording, Path file) {
                    trouble.add("another changed " + file.getFileName());
                }

                @Override
                public void notKept(Path file, IOException why) {
                    trouble.add("not kept " + file.getFileName());
                }

                @Override
                public void notWorkedOut(Path recording, Throwable why) {
                    trouble.add("not worked out: " + why);
                }
            },
            clockMs::get);
    private Path setup;
    private Path recording;

    @BeforeEach
    void open() throws Exception {
        recording = folder.resolve("clamp.csv");
        setup = folder.resolve("clamp.setup.json");
        Files.copy(DEMO.resolve("08-thistle-clamp.csv"), recording);
        Files.copy(DEMO.resolve("08-thistle-clamp.setup.json"), setup);
        OpenRecording read = OpenRecording.read(new InputFile(recording, "clamp"));
        onEventThread(() -> changes.opened(read));
    }

    @AfterEach
    void close() {
        changes.close();
    }

    @Test
    void theResultFollowsAChangeAndTheFileIsWrittenWithoutBeingAsked() throws Exception {
        byte[] samples = Files.readAllBytes(recording);
        write(SetupField.LIMIT, "0.2 cm3/min");
        until(() -> limit().equals(Optional.of(0.2)));
        until(() -> text().contains("\"limit\" : \"0.2 cm3/min\""));
        assertEquals(List.of(), trouble);
        assertArrayEquals(samples, Files.readAllBytes(recording));
    }

    @Test
    void keystrokesInOneFieldAreOneChangeAndOthersAreNot() throws Exception {
        write(SetupField.LIMIT, "1 cm3/min");
        clockMs.addAndGet(300);
        write(SetupField.LIMIT, "15 cm3/min");
        clockMs.addAndGet(5000);
        write(SetupField.LIMIT, "16 cm3/min");
        write(SetupField.PORT, "A");
        onEventThread(changes::undo);
        assertEquals("", now(SetupField.PORT));
        onEventThread(changes::undo);
        assertEquals("15 cm3/min", now(SetupField.LIMIT));
        onEventThread(changes::undo);
        assertEquals("0.5 cm3/min", now(SetupField.LIMIT));
        assertEquals(Optional.empty(), changes.undoable());
        onEventThread(changes::redo);
        assertEquals("15 cm3/min", now(SetupField.LIMIT));
        assertEquals(Optional.of("LIMIT"), changes.redoable());
        write(SetupField.PORT, "B");
        assertEquals(Optional.empty(), changes.redoable(), "a new change ends what could be done again");
    }

    @Test
    void aFileThatAnotherProgramChangedIsLeftAloneUntilAPersonDecides() throws Exception {
        String theirs = "{ \"limit\": \"3 cm3/min\" }";
        Files.writeString(setup, theirs);
        write(SetupField.LIMIT, "0.2 cm3/min");
        until(() -> trouble.contains("another changed clamp.setup.json"));
        assertEquals(theirs, Files.readString(setup));
        onEventThread(() -> changes.writeOver(workspace.chosen().orElseThrow()));
        until(() -> text().contains("0.2 cm3/min"));

        Files.writeString(setup, theirs);
        onEventThread(() -> changes.takeTheirs(workspace.chosen().orElseThrow()));
        until(() -> limit().equals(Optional.of(3.0)));
        assertEquals(Optional.empty(), changes.undoable(), "what was before is another file's past");
    }

    @Test
    void whatNobodySaidAnythingAboutLeavesNoFile() throws Exception {
        Files.delete(setup);
        OpenRecording read = OpenRecording.read(new InputFile(recording, "clamp"));
        onEventThread(() -> changes.opened(read));
        write(SetupField.LIMIT, "0.2 cm3/min");
        until(() -> text().contains("0.2 cm3/min"));
        onEventThread(changes::undo);
        until(() -> !Files.exists(setup));
    }

    @Test
    void whatWaitsIsWrittenBeforeTheDeskCloses() throws Exception {
        write(SetupField.LIMIT, "0.2 cm3/min");
        changes.close();
        assertTrue(text().contains("0.2 cm3/min"));
    }

    @Test
    void aPlaceThatCannotBeWrittenToIsTold() throws Exception {
        Path gone = folder.resolve("gone");
        Files.createDirectory(gone);
        Path there = Files.copy(recording, gone.resolve("clamp.csv"));
        OpenRecording read = OpenRecording.read(new InputFile(there, "clamp"));
        onEventThread(() -> changes.opened(read));
        Files.delete(there);
        Files.delete(gone);
        onEventThread(() -> changes.change(read, "limit", before -> with(before, SetupField.LIMIT, "1 cm3/min")));
        until(() -> trouble.contains("not kept clamp.setup.json"));
    }

    @Test
    void aChangeThatIsOvertakenIsGivenUp() throws Exception {
        for (int i = 1; i <= 30; i++) {
            write(SetupField.TRAPPED_VOLUME, 300 + i + " cm3");
        }
        until(() -> workspace
                .chosen()
                .orElseThrow()
                .setup()
                .trappedVolumeM3()
                .map(Quantity::value)
                .filter(each -> Math.abs(each - 330e-6) < 1e-12)
                .isPresent());
        assertEquals(List.of(), trouble);
        assertNotEquals(0, workspace.chosen().orElseThrow().results().size());
    }

    private void write(SetupField field, String words) throws Exception {
        onEventThread(() ->
                changes.change(workspace.chosen().orElseThrow(), field.name(), before -> with(before, field, words)));
    }

    private static Described with(Described before, SetupField field, String words) {
        return new Described(before.sheet().with(field, words), before.notes());
    }

    private String now(SetupField field) {
        return changes.of(workspace.chosen().orElseThrow()).sheet().text(field);
    }

    private Optional<Double> limit() {
        return workspace
                .chosen()
                .orElseThrow()
                .results()
                .get(0)
                .verdict()
                .map(each -> Math.rint(each.limitM3PerS() * 60e6 * 1e6) / 1e6);
    }

    private String text() {
        try {
            return Files.exists(setup) ? Files.readString(setup) : "";
        } catch (IOException e) {
            return "";
        }
    }

    private static void onEventThread(Runnable work) throws InterruptedException, InvocationTargetException {
        SwingUtilities.invokeAndWait(work);
    }

    private static void until(BooleanSupplier holds) throws Exception {
        long end = System.nanoTime() + 20_000_000_000L;
        boolean[] now = new boolean[1];
        while (!now[0]) {
            onEventThread(() -> now[0] = holds.getAsBoolean());
            if (System.nanoTime() > end) {
                throw new AssertionError("waited too long");
            }
            Thread.sleep(10);
        }
    }
}
