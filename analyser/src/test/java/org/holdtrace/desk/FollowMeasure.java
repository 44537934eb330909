package org.holdtrace.desk;

import java.awt.Component;
import java.awt.Container;
import java.awt.Toolkit;
import java.awt.event.KeyEvent;
import java.io.IOException;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import java.util.function.BooleanSupplier;
import javax.swing.JComponent;
import javax.swing.JTabbedPane;
import javax.swing.JTextField;
import javax.swing.RepaintManager;
import javax.swing.SwingUtilities;
import org.holdtrace.desk.work.Commands;
import org.holdtrace.desk.work.DeskState;
import org.holdtrace.desk.work.OpenRecording;

/** Times, in the desk's own window, how long a result takes to follow a key that is typed into the form. */
public final class FollowMeasure {
    private static final int WARM_UP = 6;
    private static final int ROUNDS = 20;
    private static final String FIVE_MINUTES = "invented-five-minutes";

    private FollowMeasure() {}

    /** Every recording of the demo data, and one of five minutes at 250 Hz. */
    public static void run() throws Exception {
        Path home = Files.createTempDirectory("follow");
        Path demo = Path.of("..", "demo-data");
        try (DirectoryStream<Path> files = Files.newDirectoryStream(demo, "*.{hold,csv,setup.json}")) {
            for (Path file : files) {
                Files.copy(file, home.resolve(file.getFileName()));
            }
        }
        fiveMinutes(demo, home);
        DeskWindow[] made = new DeskWindow[1];
        SwingUtilities.invokeAndWait(() -> {
            made[0] = new DeskWindow(DeskState.in(home.resolve("state")), Commands.NONE, () -> {});
            made[0].open();
            made[0].arrivals().bringIn(List.of(home));
        });
        DeskWindow desk = made[0];
        await(() -> desk.workspace().recordings().size() > 0 && !desk.arrivals().isBusy());
        List<Double> all = new ArrayList<>();
        for (OpenRecording each : List.copyOf(desk.workspace().recordings())) {
            List<Double> ms = typed(desk, each);
            Measured.print(each.input().name(), ms);
            if (each.input().stem().equals(FIVE_MINUTES)) {
                Measured.print(
                        "key to result, five minutes at 250 Hz, "
                                + each.recording().trace().size() + " samples",
                        ms);
            } else {
                all.addAll(ms);
            }
        }
        Measured.print("key to result, ten demo recordings", all);
        SwingUtilities.invokeAndWait(desk::close);
    }

    /** A tighter spool of the demo data, held for five minutes. */
    private static void fiveMinutes(Path demo, Path home) throws IOException, InterruptedException {
        String rig = Files.readString(demo.resolve("rigs").resolve("02-bramble-bucket-port-a.rig.json"));
        Path file = home.resolve(FIVE_MINUTES + ".rig.json");
        Files.writeString(
                file,
                rig.replace("\"19.5 cm3/min\"", "\"0.15 cm3/min\"")
                        .replace("\"hold\": \"25 s\"", "\"hold\": \"280 s\""));
        Process simulate = new ProcessBuilder(
                        Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                        "-cp",
                        System.getProperty("java.class.path"),
                        "org.holdtrace.command.Main",
                        "simulate",
                        file.toString(),
                        "--out",
                        home.resolve(FIVE_MINUTES + ".hold").toString())
                .inheritIO()
                .start();
        if (simulate.waitFor() != 0) {
            throw new IOException("no session was simulated");
        }
        Files.copy(demo.resolve("02-bramble-bucket-port-a.setup.json"), home.resolve(FIVE_MINUTES + ".setup.json"));
    }

    /** Types a digit at the end of the number in four fields in turn and takes it away again. */
    private static List<Double> typed(DeskWindow desk, OpenRecording recording) throws Exception {
        List<Double> ms = new ArrayList<>();
        SwingUtilities.invokeAndWait(() -> {
            desk.workspace().choose(recording.path(), 0);
            ((JTabbedPane) find(desk.frame(), "beside the trace")).setSelectedIndex(1);
        });
        List<String> fields = List.of("limit", "trappedVolume", "pumpStroke", "oil.temperature");
        List<String> texts = List.of("15 cm3/min", "48 ± 5 cm3", "0.45 ± 0.01 cm3", "22 ± 2 degC");
        for (int round = 0; round < ROUNDS; round++) {
            int which = round % fields.size();
            JTextField field = (JTextField) find(desk.frame(), fields.get(which));
            String text = texts.get(which);
            SwingUtilities.invokeAndWait(() -> {
                if (field.getText().isEmpty()) {
                    field.setText(text);
                }
                field.requestFocusInWindow();
            });
            await(() -> !desk.changes().isBusy() && field.isFocusOwner());
            for (char key : new char[] {'1', '\b'}) {
                double took = key(desk, recording.path(), field, key);
                if (round >= WARM_UP) {
                    ms.add(took);
                }
            }
        }
        return ms;
    }

    /** From the event of a key to the end of the drawing that shows what follows from it, ms. */
    @SuppressWarnings("ReferenceEquality") // another result is another object
    private static double key(DeskWindow desk, Path path, JTextField field, char key) throws Exception {
        CountDownLatch shown = new CountDownLatch(1);
        long[] endNs = new long[1];
        Runnable[] watch = new Runnable[1];
        OpenRecording[] before = new OpenRecording[1];
        watch[0] = () -> {
            OpenRecording now = desk.workspace().chosen().orElseThrow();
            if (shown.getCount() > 0 && now != before[0] && now.path().equals(path)) {
                // Behind what this change still has to lay out and draw.
                SwingUtilities.invokeLater(() -> {
                    RepaintManager.currentManager(desk.frame()).paintDirtyRegions();
                    Toolkit.getDefaultToolkit().sync();
                    endNs[0] = System.nanoTime();
                    shown.countDown();
                });
            }
        };
        SwingUtilities.invokeAndWait(() -> {
            before[0] = desk.workspace().chosen().orElseThrow();
            desk.workspace().addListener(watch[0]);
            field.setCaretPosition(field.getText().indexOf(' '));
        });
        long startNs = System.nanoTime();
        SwingUtilities.invokeLater(() -> {
            if (key == '\b') {
                field.dispatchEvent(new KeyEvent(
                        field, KeyEvent.KEY_PRESSED, System.currentTimeMillis(), 0, KeyEvent.VK_BACK_SPACE, key));
            }
            field.dispatchEvent(
                    new KeyEvent(field, KeyEvent.KEY_TYPED, System.currentTimeMillis(), 0, KeyEvent.VK_UNDEFINED, key));
        });
        if (!shown.await(20, TimeUnit.SECONDS)) {
            throw new IOException(
                    "no result followed a key in " + field.getName() + " of " + path + ": " + field.getText());
        }
        return (endNs[0] - startNs) / 1e6;
    }

    private static void await(BooleanSupplier holds) throws Exception {
        boolean[] done = new boolean[1];
        while (!done[0]) {
            Thread.sleep(20);
            SwingUtilities.invokeAndWait(() -> done[0] = holds.getAsBoolean());
        }
    }

    private static Component find(Container in, String name) {
        for (Component each : in.getComponents()) {
            if (name.equals(each.getName()) && each instanceof JComponent) {
                return each;
            }
            if (each instanceof Container inside) {
                Component found = find(inside, name);
                if (found != null) {
                    return found;
                }
            }
        }
        return null;
    }
}
