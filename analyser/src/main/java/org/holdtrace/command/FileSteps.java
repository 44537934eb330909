package org.holdtrace.command;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.holdtrace.chart.HoldTestChart;
import org.holdtrace.estimate.EstimateOptions;
import org.holdtrace.estimate.HoldTestEstimator;
import org.holdtrace.estimate.HoldTestResult;
import org.holdtrace.library.InputFile;
import org.holdtrace.library.Recording;
import org.holdtrace.library.Recordings;
import org.holdtrace.rig.RigFile;
import org.holdtrace.session.HoldFileReader;
import org.holdtrace.session.SetupReader;
import org.holdtrace.session.TestSetup;
import org.holdtrace.trace.HoldTest;
import org.holdtrace.trace.Trace;
import org.holdtrace.trace.TraceSegmenter;

/** The steps as they are done outside tests. */
final class FileSteps implements Steps {
    @Override
    public Recording read(InputFile input) throws IOException {
        return Recordings.read(input);
    }

    @Override
    public TestSetup setupOf(InputFile input, Recording recording) throws IOException {
        return Recordings.setupOf(input, recording);
    }

    @Override
    public TestSetup readSetup(Path file) throws IOException {
        return SetupReader.read(file);
    }

    @Override
    public List<HoldTest> segment(Trace trace) {
        return TraceSegmenter.segment(trace);
    }

    @Override
    public HoldTestResult estimate(Trace trace, HoldTest test, TestSetup setup, EstimateOptions options) {
        return HoldTestEstimator.estimate(trace, test, setup, options);
    }

    @Override
    public void draw(Path svg, InputFile input, Trace trace, TestSetup setup, HoldTestResult result)
            throws IOException {
        Files.writeString(svg, picture(input, trace, setup, result));
    }

    private static String picture(InputFile input, Trace trace, TestSetup setup, HoldTestResult result)
            throws IOException {
        try {
            return HoldTestChart.svg(input.name(), trace, setup, result);
        } catch (InternalError | LinkageError e) {
            throw noFonts(e, "or leave --charts out for the figures alone");
        }
    }

    /** So Java says that it found no fonts, or not the libraries that read them; which of the two, it does not. */
    static IOException noFonts(Throwable failure, String wayOut) {
        return new IOException(
                "no picture, since Java finds no fonts on this machine ("
                        + failure.getClass().getSimpleName()
                        + "); install some (on Debian: apt-get install fontconfig libfreetype6 fonts-dejavu-core), "
                        + wayOut,
                failure);
    }

    @Override
    public void simulate(Path rigFile, Path out) throws IOException {
        RigFile.simulate(rigFile, out);
    }

    @Override
    public boolean isSimulated(Path file) {
        try {
            return RigFile.isSimulatedTrace(file)
                    || HoldFileReader.read(file).header().simulated();
        } catch (IOException e) {
            return false;
        }
    }
}
