package org.holdtrace.desk.work;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.lang.reflect.InvocationTargetException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.nio.file.attribute.PosixFileAttributeView;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.concurrent.atomic.AtomicLong;
import java.util.function.BooleanSupplier;
import java.util.stream.Stream;
import javax.swing.SwingUtilities;
import org.holdtrace.estimate.EstimateOptions;
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
    private final Changes.Trouble told = new Changes.Trouble() {
        @Override
        public void keptAsDraft(Path file, Path draft, IOException why) {
            trouble.add("a draft of " + file.getFileName());
        }

        @Override
        public void changedByAnother(Path recording, Path file) {
            trouble.add("another changed " + file.getFileName());
        }

        @Override
        public void keptBesideAgain(Path recording) {
            trouble.add("beside " + recording.getFileName() + " again");
        }

        @Override
        public void notKept(Path file, IOException why) {
            trouble.add("not kept " + file.getFileName());
        }

        @Override
        public void notWorkedOut(Path recording, Throwable why) {
            trouble.add("not worked out: " + why);
        }
    };
    private Changes changes;
    private Path drafts;
    private Path setup;
    private Path recording;

    @BeforeEach
    void open() throws Exception {
        drafts = folder.resolve("state").resolve("drafts");
        changes = new Changes(workspace, new Drafts(drafts), told, clockMs::get);
        recording = folder.resolve("clamp.csv");
        setup = folder.resolve("clamp.setup.json");
        Files.copy(DEMO.resolve("08-thistle-clamp.csv"), recording);
        Files.copy(DEMO.resolve("08-thistle-clamp.setup.json"), setup);
        OpenRecording read = OpenRecording.read(new InputFile(recording, "clamp"), EstimateOptions.none());
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
        OpenRecording read = OpenRecording.read(new InputFile(recording, "clamp"), EstimateOptions.none());
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
    void whereNothingCanBeWrittenADraftIsKeptFoundAgainAndPutInItsPlaceOnceThatCanBeWritten() throws Exception {
        Path gone = folder.resolve("gone");
        Files.createDirectory(gone);
        Path there = Files.copy(recording, gone.resolve("clamp.csv"));
        InputFile input = new InputFile(there, "clamp");
        OpenRecording read = OpenRecording.read(input, EstimateOptions.none());
        onEventThread(() -> changes.opened(read));
        Files.delete(there);
        Files.delete(gone);
        onEventThread(() -> changes.change(read, "limit", before -> with(before, SetupField.LIMIT, "1 cm3/min")));
        until(() -> trouble.contains("a draft of clamp.setup.json"));
        onEventThread(() -> assertTrue(changes.draftOf(read).isPresent()));

        Files.createDirectory(gone);
        Files.copy(recording, there);
        OpenRecording again = OpenRecording.read(input, EstimateOptions.none(), Optional.of(new Drafts(drafts)));
        assertTrue(again.isDraft());
        assertEquals("1 cm3/min", again.described().sheet().text(SetupField.LIMIT));
        onEventThread(() -> changes.opened(again));
        onEventThread(() -> changes.change(again, "port", before -> with(before, SetupField.PORT, "A")));
        until(() -> changes.draftOf(again).isEmpty());
        onEventThread(() -> assertTrue(trouble.contains("beside clamp.csv again"), trouble.toString()));
        assertTrue(Files.readString(gone.resolve("clamp.setup.json")).contains("1 cm3/min"));
        try (Stream<Path> left = Files.list(drafts)) {
            assertEquals(0, left.count());
        }
    }

    @Test
    void whereNothingCanBeKeptAtAllThatIsTold() throws Exception {
        Files.createDirectories(drafts.getParent());
        Files.writeString(drafts, "a file where the folder of drafts ought to be");
        Files.delete(setup);
        Files.createDirectory(setup);
        write(SetupField.LIMIT, "0.2 cm3/min");
        until(() -> trouble.contains("not kept clamp.setup.json"));
    }

    @Test
    void whatIsNotRightYetIsKeptAndDoesNotCount() throws Exception {
        onEventThread(() -> changes.change(
                workspace.chosen().orElseThrow(),
                "limit",
                before ->
                        new Described(before.sheet(), before.notes().withUnfinished(SetupField.LIMIT, "0.2 cmm/min"))));
        Path notes = folder.resolve("clamp.work.json");
        until(() -> Files.exists(notes));
        assertTrue(Files.readString(notes).contains("\"text\" : \"0.2 cmm/min\""));
        assertEquals(Optional.of(0.5), limit());
        OpenRecording again = OpenRecording.read(new InputFile(recording, "clamp"), EstimateOptions.none());
        assertEquals(
                Map.of(SetupField.LIMIT, "0.2 cmm/min"),
                again.described().notes().unfinished());
    }

    @Test
    void resultsAreAskedForAtAnotherPressureOfAllThatIsOpen() throws Exception {
        onEventThread(() ->
                changes.ask(new EstimateOptions(OptionalDouble.of(50e5), OptionalDouble.empty(), Optional.empty())));
        until(() -> Math.abs(workspace
                                .chosen()
                                .orElseThrow()
                                .results()
                                .get(0)
                                .leak()
                                .orElseThrow()
                                .atPa()
                        - 50e5)
                < 1);
    }

    @Test
    void whatIsAskedForWhileARecordingIsBeingReadCountsForItToo() throws Exception {
        OpenRecording read = OpenRecording.read(new InputFile(recording, "clamp"), EstimateOptions.none());
        EstimateOptions asked = new EstimateOptions(OptionalDouble.of(50e5), OptionalDouble.empty(), Optional.empty());
        onEventThread(() -> changes.close(recording));
        onEventThread(() -> changes.ask(asked));
        onEventThread(() -> changes.opened(read));
        until(() -> workspace.chosen().orElseThrow().asked().equals(asked));
    }

    @Test
    void whatWasLeftByACrashIsNoHindranceAndAFileKeepsItsPermissions() throws Exception {
        Path left = folder.resolve(".clamp.setup.json.new");
        Files.writeString(left, "half a fi");
        Files.setLastModifiedTime(left, FileTime.fromMillis(System.currentTimeMillis() - 60_000));
        PosixFileAttributeView view = Files.getFileAttributeView(setup, PosixFileAttributeView.class);
        if (view != null) {
            view.setPermissions(PosixFilePermissions.fromString("rw-rw-r--"));
        }
        write(SetupField.LIMIT, "0.2 cm3/min");
        until(() -> text().contains("0.2 cm3/min"));
        until(() -> !Files.exists(left));
        if (view != null) {
            assertEquals(
                    "rw-rw-r--",
                    PosixFilePermissions.toString(view.readAttributes().permissions()));
        }
        assertEquals(List.of(), trouble);
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
