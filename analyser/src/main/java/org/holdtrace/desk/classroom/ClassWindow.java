package org.holdtrace.desk.classroom;

import java.awt.GraphicsDevice;
import java.awt.GraphicsEnvironment;
import java.awt.Toolkit;
import java.awt.event.WindowAdapter;
import java.awt.event.WindowEvent;
import java.io.File;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.function.Consumer;
import javax.swing.JFileChooser;
import javax.swing.JFrame;
import javax.swing.JOptionPane;
import javax.swing.filechooser.FileNameExtensionFilter;
import org.holdtrace.desk.logger.LoggerForm;
import org.holdtrace.desk.logger.LoggerMemory;
import org.holdtrace.desk.look.FileChooser;
import org.holdtrace.desk.look.Theme;
import org.holdtrace.desk.look.WindowIcon;
import org.holdtrace.desk.work.Background;
import org.holdtrace.desk.work.OpenRecording;
import org.holdtrace.estimate.EstimateOptions;
import org.holdtrace.library.Failures;
import org.holdtrace.library.InputFile;
import org.holdtrace.link.LinkKey;
import org.holdtrace.remote.LoggerAddress;

/**
 * The class view in a window of its own, worked with the keyboard alone: opens recordings and loggers, fills the screen,
 * makes pictures. On the event thread.
 */
public final class ClassWindow {
    private static final int MOST_RECORDINGS = 2;

    private final JFrame frame = new JFrame("Holdtrace: class view");
    private final ClassView view;
    private final SafetyGate safety;
    private final String program;
    private final LoggerMemory loggers;
    private String folder;

    /**
     * A window that is not shown yet, with the simulated line in it.
     *
     * @param theme its look at first
     * @param safety asked before a real line is shown
     * @param program name and version, told to loggers
     * @param loggers where loggers were reached lately
     * @param folder where files are looked for first, empty for the usual one
     */
    public ClassWindow(Theme theme, SafetyGate safety, String program, LoggerMemory loggers, String folder) {
        this.folder = folder;
        this.loggers = loggers;
        this.safety = safety;
        this.program = program;
        view = new ClassView(theme);
        view.addKey(new Key("F1", "F1", "simulated", () -> view.show(List.of(new LineSource()))));
        view.addKey(new Key("F2", "F2", "recording…", () -> chooseRecordings(false)));
        view.addKey(new Key("shift F2", "Shift F2", "beside it…", () -> chooseRecordings(true)));
        view.addKey(new Key("F3", "F3", "logger…", this::chooseLogger));
        view.addKey(new Key("C", "C", "copy", this::copy));
        view.addKey(new Key("S", "S", "save…", this::choosePicture));
        view.addKey(new Key("F11", "F11", "screen", () -> fillScreen(!fillsScreen())));
        view.addKey(new Key("ESCAPE", "Esc", "leave", this::leave));
        frame.setName("class view");
        frame.setIconImages(WindowIcon.images());
        frame.setContentPane(view);
        takeTheRoomThereIs();
        frame.setDefaultCloseOperation(JFrame.DO_NOTHING_ON_CLOSE);
        frame.addWindowListener(new WindowAdapter() {
            @Override
            public void windowClosing(WindowEvent event) {
                putAway();
            }
        });
        view.show(List.of(new LineSource()));
    }

    /** As large as the screen allows, beside the system's own bars: the back row is far away. */
    private void takeTheRoomThereIs() {
        frame.setBounds(GraphicsEnvironment.getLocalGraphicsEnvironment().getMaximumWindowBounds());
        frame.setExtendedState(JFrame.MAXIMIZED_BOTH);
    }

    /** Shows it, as it was when it was put away. */
    public void open() {
        view.rest(false);
        frame.setVisible(true);
        frame.toFront();
        view.requestFocusInWindow();
    }

    /** Puts it out of sight; the lesson stands still until it is opened again. */
    private void putAway() {
        frame.setVisible(false);
        view.rest(true);
    }

    /** Ends it for good. */
    public void close() {
        view.end();
        frame.dispose();
    }

    /** Shows one or two recordings side by side, from the start. */
    public void play(List<Path> files) {
        load(files, played -> view.show(List.of(new ReplaySource(played))));
    }

    /** Shows the logger at {@code address} once the cautions are confirmed. */
    public void follow(String name, LoggerAddress address, Optional<LinkKey> key) {
        if (safety.confirmed(frame)) {
            view.show(List.of(new LoggerSource(name, () -> address.open(program, key))));
        }
    }

    /** The window itself. */
    JFrame frame() {
        return frame;
    }

    ClassView view() {
        return view;
    }

    private void chooseRecordings(boolean beside) {
        JFileChooser chooser = new FileChooser(folder);
        chooser.setDialogTitle(beside ? "A recording beside what is shown" : "One recording, or two side by side");
        chooser.setMultiSelectionEnabled(!beside);
        chooser.setFileFilter(new FileNameExtensionFilter("sessions and traces (.hold, .csv)", "hold", "csv"));
        if (chooser.showOpenDialog(frame) != JFileChooser.APPROVE_OPTION) {
            return;
        }
        folder = chooser.getCurrentDirectory().getPath();
        File[] chosen = beside ? new File[] {chooser.getSelectedFile()} : chooser.getSelectedFiles();
        if (chosen.length > MOST_RECORDINGS) {
            tell("Two recordings fit side by side; " + chosen.length + " were chosen.");
            return;
        }
        List<Path> files = Arrays.stream(chosen).map(File::toPath).toList();
        if (beside) {
            load(files, this::showBeside);
        } else {
            play(files);
        }
    }

    /** What is shown keeps its place at the left; of two lanes, or two sources, the first. */
    private void showBeside(List<ReplaySource.Played> played) {
        Source first =
                view.sources().isEmpty() ? new LineSource() : view.sources().get(0);
        view.showBeside(first, new ReplaySource(played));
    }

    private void load(List<Path> files, Consumer<List<ReplaySource.Played>> then) {
        if (files.isEmpty()) {
            return;
        }
        inBackground(
                () -> {
                    List<ReplaySource.Played> played = new ArrayList<>();
                    for (Path file : files) {
                        played.add(read(file));
                    }
                    return played;
                },
                files.get(0).toString(),
                then);
    }

    /** Reads a recording and works its hold tests out, as {@code analyse} does. */
    static ReplaySource.Played read(Path file) throws IOException {
        InputFile input = new InputFile(file, InputFile.stemOf(file));
        OpenRecording opened = OpenRecording.read(input, EstimateOptions.none());
        return new ReplaySource.Played(input.stem(), opened.recording().trace(), opened.results());
    }

    private void chooseLogger() {
        if (!safety.confirmed(frame)) {
            return;
        }
        LoggerForm form = new LoggerForm(loggers);
        while (form.ask(frame)) {
            try {
                follow(form.where(), form.address(), form.key());
                form.remember();
                return;
            } catch (IllegalArgumentException e) {
                tell(e.getMessage());
            } catch (IOException e) {
                tell(Failures.sentence("the key", e));
            }
        }
    }

    private void copy() {
        try {
            Toolkit.getDefaultToolkit()
                    .getSystemClipboard()
                    .setContents(new ClassPicture.OnClipboard(ClassPicture.image(view)), null);
            view.say("the picture is on the clipboard");
        } catch (IllegalStateException e) {
            tell("The clipboard is in another program's hands at the moment: press C again.");
        }
    }

    private void choosePicture() {
        JFileChooser chooser = new FileChooser(folder);
        chooser.setDialogTitle("A picture of the screen (.png or .svg)");
        chooser.setSelectedFile(new File("class.png"));
        if (chooser.showSaveDialog(frame) != JFileChooser.APPROVE_OPTION) {
            return;
        }
        folder = chooser.getCurrentDirectory().getPath();
        Path file = ClassPicture.withEnding(chooser.getSelectedFile().toPath());
        if (!Files.exists(file) || replaces(file)) {
            save(file);
        }
    }

    private boolean replaces(Path file) {
        return JOptionPane.showConfirmDialog(
                        frame,
                        file + " exists already. Replace it?",
                        "A picture of the screen",
                        JOptionPane.YES_NO_OPTION)
                == JOptionPane.YES_OPTION;
    }

    /** Writes the screen as it is now to {@code file}. */
    void save(Path file) {
        ClassPicture.Drawn drawn = ClassPicture.draw(view, file);
        inBackground(
                () -> {
                    drawn.write(file);
                    return file;
                },
                file.toString(),
                written -> view.say("the picture is " + written));
    }

    private boolean fillsScreen() {
        return frame.isUndecorated();
    }

    private void fillScreen(boolean all) {
        GraphicsDevice screen = frame.getGraphicsConfiguration().getDevice();
        frame.setVisible(false);
        frame.removeNotify(); // a frame loses or gains its border only where the system does not know it
        frame.setUndecorated(all);
        frame.setVisible(true);
        screen.setFullScreenWindow(all ? frame : null);
        if (!all) {
            takeTheRoomThereIs();
        }
        // It was gone for a moment, and not every window system gives the keyboard back by itself.
        frame.toFront();
        view.requestFocus();
    }

    private void leave() {
        if (fillsScreen()) {
            fillScreen(false);
        } else {
            putAway();
        }
    }

    private void tell(String what) {
        JOptionPane.showMessageDialog(frame, what, "Holdtrace", JOptionPane.WARNING_MESSAGE);
    }

    private <T> void inBackground(Callable<T> work, String what, Consumer<T> then) {
        Background.run(work, then, why -> tell(Failures.sentence(what, why)));
    }
}
