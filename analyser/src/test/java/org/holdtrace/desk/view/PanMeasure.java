package org.holdtrace.desk.view;

import java.io.IOException;
import java.lang.management.ManagementFactory;
import java.lang.management.ThreadMXBean;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import javax.swing.JFrame;
import javax.swing.SwingUtilities;
import org.holdtrace.chart.TracePyramid;
import org.holdtrace.desk.Measured;
import org.holdtrace.desk.look.Theme;
import org.holdtrace.estimate.EstimateOptions;
import org.holdtrace.estimate.HoldTestEstimator;
import org.holdtrace.estimate.HoldTestResult;
import org.holdtrace.library.InputFile;
import org.holdtrace.library.Recording;
import org.holdtrace.library.Recordings;
import org.holdtrace.quantity.Unit;
import org.holdtrace.trace.HoldTest;
import org.holdtrace.trace.Trace;
import org.holdtrace.trace.TraceSegmenter;

/** Times frames of ten million samples while they are panned. */
public final class PanMeasure {
    private static final int SAMPLES = 10_000_000;
    private static final double RATE_HZ = 860;
    /** Hold tests at the beginning that have a result, whose fit and residuals are drawn. */
    private static final int ESTIMATED = 40;

    /** What the desk's own window, as large as a screen of 3840 by 2160, has for the trace. */
    private static final int DESK_WIDTH = 1860;

    private static final int DESK_HEIGHT = 2000;

    private static final int FRAMES = 200;
    private static final int WARM_UP = 40;

    private PanMeasure() {}

    /** Pans a wandering line, then half a day of hold tests with phases, strokes, fits and residuals, both sizes. */
    public static void run() throws Exception {
        for (TraceModel model : List.of(wandering(), day())) {
            pan(model, 1366, 768);
            pan(model, 3840, 2160);
            pan(model, DESK_WIDTH, DESK_HEIGHT);
        }
    }

    private static TraceModel wandering() {
        double[] timeS = new double[SAMPLES];
        double[] pressurePa = new double[SAMPLES];
        Random random = new Random(7);
        double pa = 100e5;
        for (int i = 0; i < SAMPLES; i++) {
            timeS[i] = i / RATE_HZ;
            pa += 1000 * random.nextGaussian();
            pressurePa[i] = pa;
        }
        return new TraceModel(new TracePyramid(Trace.of(timeS, pressurePa)), List.of(), List.of(), Unit.BAR);
    }

    /** A recording of the demo data over and over, as fast as a logger samples and with noise. */
    private static TraceModel day() throws IOException {
        Path file = Path.of("..", "demo-data", "02-bramble-bucket-port-a.hold");
        Recording recording = Recordings.read(new InputFile(file, InputFile.stemOf(file)));
        Trace once = recording.trace();
        double[] timeS = new double[SAMPLES];
        double[] pressurePa = new double[SAMPLES];
        Random random = new Random(8);
        double length = once.timeS(once.size() - 1);
        for (int i = 0; i < SAMPLES; i++) {
            timeS[i] = i / RATE_HZ;
            pressurePa[i] = CursorReading.pressurePa(once, timeS[i] % length) + 3000 * random.nextGaussian();
        }
        Trace trace = Trace.of(timeS, pressurePa);
        List<HoldTest> tests = TraceSegmenter.segment(trace);
        List<HoldTestResult> results = new ArrayList<>();
        for (HoldTest test : tests.subList(0, Math.min(tests.size(), ESTIMATED))) {
            results.add(HoldTestEstimator.estimate(trace, test, recording.setup(), EstimateOptions.none()));
        }
        System.out.println(tests.size() + " hold tests in ten million samples");
        return new TraceModel(new TracePyramid(trace), tests, results, Unit.BAR);
    }

    private static void pan(TraceModel model, int width, int height) throws Exception {
        List<Double> ms = new ArrayList<>();
        List<Double> busy = new ArrayList<>();
        ThreadMXBean threads = ManagementFactory.getThreadMXBean();
        SwingUtilities.invokeAndWait(() -> {
            Theme.usual().install();
            JFrame frame = new JFrame();
            TraceView view = new TraceView(model, Theme.usual());
            frame.setContentPane(view);
            frame.setSize(width, height);
            frame.setVisible(true);
            TimeWindow whole = model.whole();
            for (double part : new double[] {1, 0.3, 0.01, 0.001}) {
                for (int i = 0; i < FRAMES; i++) {
                    double from = whole.fromS() + (1 - part) * whole.durationS() * i / FRAMES;
                    long startNs = System.nanoTime();
                    long busyNs = threads.getCurrentThreadCpuTime();
                    view.show(new TimeWindow(from, from + part * whole.durationS()));
                    view.paintImmediately(0, 0, view.getWidth(), view.getHeight());
                    java.awt.Toolkit.getDefaultToolkit().sync();
                    if (i >= WARM_UP) {
                        ms.add((System.nanoTime() - startNs) / 1e6);
                        busy.add((threads.getCurrentThreadCpuTime() - busyNs) / 1e6);
                    }
                }
            }
            frame.dispose();
        });
        String what = "frame of 10 million samples, " + (model.tests().isEmpty() ? "wandering" : "hold tests") + ", at "
                + width + " × " + height;
        Measured.print(what, ms);
        Measured.print("    of that the processor's time of the drawing thread", busy);
    }
}
