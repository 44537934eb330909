package org.holdtrace.desk;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.github.caciocavallosilano.cacio.ctc.junit.CacioTest;
import java.io.File;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Set;
import java.util.concurrent.TimeUnit;
import java.util.function.BooleanSupplier;
import java.util.stream.Stream;
import javax.swing.JFrame;
import javax.swing.JList;
import javax.swing.text.JTextComponent;
import org.assertj.swing.core.BasicRobot;
import org.assertj.swing.core.NameMatcher;
import org.assertj.swing.core.Robot;
import org.assertj.swing.edt.GuiActionRunner;
import org.assertj.swing.fixture.FrameFixture;
import org.assertj.swing.fixture.JFileChooserFixture;
import org.assertj.swing.timing.Condition;
import org.assertj.swing.timing.Pause;
import org.assertj.swing.timing.Timeout;
import org.holdtrace.desk.work.Commands;
import org.holdtrace.desk.work.DeskState;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.io.TempDir;

/**
 * Drives real windows by mouse and keyboard. They live on a screen inside the Java machine (Cacio), so that no display is
 * needed and nothing else on the computer is in the way. Pictures stay in {@code target/screens}.
 */
@CacioTest
@Tag("window")
@org.junit.jupiter.api.Timeout(300)
abstract class WindowTest {
    private static final Path DEMO = Path.of("..", "demo-data").toAbsolutePath().normalize();

    /** How long anything is waited for. */
    static final Timeout PATIENCE = Timeout.timeout(60, TimeUnit.SECONDS);

    private static final int SUBMENU_MS = 500;

    /** The sessions of the case in the demo data. */
    private static final String CASE_FOLDER = "rowan-loader";

    @TempDir
    Path home;

    /** A copy of the demo data, since the desk keeps what is changed beside recordings. */
    Path demo;

    Commands commands = Commands.NONE;
    EventThreadWatch watch;
    Robot robot;

    @BeforeEach
    void takeTheMouse() throws IOException {
        demo = Files.createDirectory(home.resolve("demo-data"));
        copy(DEMO, demo);
        copy(DEMO.resolve(CASE_FOLDER), Files.createDirectory(demo.resolve(CASE_FOLDER)));
        robot = BasicRobot.robotWithNewAwtHierarchy();
        robot.settings().delayBetweenEvents(2);
        robot.settings().eventPostingDelay(5);
        robot.settings().idleTimeout(50);
        // The library waits so long for a submenu, whether it is there or not.
        robot.settings().timeoutToFindSubMenu(SUBMENU_MS);
        watch = new EventThreadWatch();
    }

    private static void copy(Path from, Path to) throws IOException {
        try (DirectoryStream<Path> files = Files.newDirectoryStream(from, "*.{hold,csv,json}")) {
            for (Path file : files) {
                Files.copy(file, to.resolve(file.getFileName()));
            }
        }
    }

    @AfterEach
    void letTheMouseGo() {
        // In this order: a dialog that a failed test left open holds the watch's own queue.
        robot.cleanUp();
        watch.close();
    }

    /** A desk that remembers what desks remembered in this test before. */
    FrameFixture openDesk() {
        DeskWindow desk = GuiActionRunner.execute(() -> {
            DeskWindow made = new DeskWindow(DeskState.in(home), commands, () -> {});
            made.open();
            return made;
        });
        return new Patient(robot, desk.frame());
    }

    /** A window whose dialogs may take as long to come as a busy computer makes them. */
    private static final class Patient extends FrameFixture {
        Patient(Robot robot, JFrame window) {
            super(robot, window);
        }

        /** Without this it would have to be there already: the library waits for dialogs, but not for choosers. */
        @Override
        public JFileChooserFixture fileChooser(String name) {
            return fileChooser(name, PATIENCE);
        }

        @Override
        public Timeout defaultDialogLookupTimeout() {
            return PATIENCE;
        }
    }

    /** What the words of that name say, nothing where they are not shown. */
    String said(String name) {
        return robot.finder().findAll(new NameMatcher(name, JTextComponent.class, true)).stream()
                .map(each -> ((JTextComponent) each).getText())
                .findFirst()
                .orElse("");
    }

    /** Waits until {@code holds}, which is asked on the event thread. */
    static void until(String what, BooleanSupplier holds) {
        Pause.pause(
                new Condition(what) {
                    @Override
                    public boolean test() {
                        return GuiActionRunner.execute(holds::getAsBoolean);
                    }
                },
                PATIENCE);
    }

    /** Chooses one file to bring in by the menu. */
    void choose(FrameFixture desk, Path path) {
        desk.menuItemWithPath("Work", "Bring in recordings…").click();
        JFileChooserFixture chooser = desk.fileChooser("choose recordings");
        chooser.setCurrentDirectory(path.getParent().toFile());
        chooser.selectFile(path.toFile()).approve();
    }

    /** Brings in recordings of the demo data from the start page, and waits until the list has the keyboard. */
    void bringIn(FrameFixture desk, String... names) {
        desk.button("bring in").click();
        JFileChooserFixture chooser = desk.fileChooser("choose recordings");
        chooser.setCurrentDirectory(demo.toFile());
        File[] files = Stream.of(names).map(each -> demo.resolve(each).toFile()).toArray(File[]::new);
        chooser.selectFiles(files).approve();
        String came = names.length == 1 ? "1 recording brought in" : names.length + " recordings brought in";
        until("it is there", () -> desk.label("status").text().equals(came));
        listTakesTheKeyboard(desk);
    }

    /** Waits until the window, not a dialog that is gone, has the keyboard, and in it the list. */
    static void listTakesTheKeyboard(FrameFixture desk) {
        JList<?> tests = desk.list("hold tests").target();
        until("the list has the keyboard", () -> {
            // Of the window too: where no window manager runs, it may have gone with the dialog.
            tests.requestFocus();
            return tests.isFocusOwner();
        });
    }

    /**
     * Brings in again what was on the desk, and waits until the list has the keyboard: it is handed over after the status
     * is set, and whoever asks for it in between may lose it to the list.
     */
    void goOn(FrameFixture desk, String came) {
        desk.button("go on").click();
        until("it is there again", () -> desk.label("status").text().equals(came));
        listTakesTheKeyboard(desk);
    }

    /** What is in {@code file}, nothing where it is not there. */
    static String read(Path file) {
        try {
            return Files.exists(file) ? Files.readString(file) : "";
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** Nothing that belongs elsewhere, and nothing long, ran on the event thread. */
    void nothingLongRanOnTheEventThread() {
        assertEquals(Set.of(), watch.misplaced());
        assertTrue(watch.longestMs() < 500, watch.longestMs() + " ms in " + watch.longest());
    }
}
