package org.holdtrace.benchmark;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.holdtrace.estimate.EstimateOptions;
import org.holdtrace.estimate.HoldTestEstimator;
import org.holdtrace.estimate.HoldTestResult;
import org.holdtrace.session.CsvTraceReader;
import org.holdtrace.trace.HoldTest;
import org.holdtrace.trace.Trace;
import org.holdtrace.trace.TraceSegmenter;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;

/** A five-minute trace of 250 samples a second, from file to result, and the parts of it. */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
public class SessionBenchmark {
    private Path file;
    private Trace trace;
    private List<HoldTest> tests;

    /** Reads the trace that {@link Ratios} has written. */
    @Setup
    public void prepare() throws IOException {
        file = Path.of(System.getProperty(Ratios.TRACE_PROPERTY));
        trace = CsvTraceReader.read(file);
        tests = TraceSegmenter.segment(trace);
    }

    /** File to result on one core. */
    @Benchmark
    public List<HoldTestResult> fileToResult() throws IOException {
        Trace read = CsvTraceReader.read(file);
        return estimate(read, TraceSegmenter.segment(read));
    }

    /** Reading alone. */
    @Benchmark
    public Trace reading() throws IOException {
        return CsvTraceReader.read(file);
    }

    /** Finding the phases alone. */
    @Benchmark
    public List<HoldTest> findingPhases() {
        return TraceSegmenter.segment(trace);
    }

    /** Estimating alone: all routes, all laws, the interval. */
    @Benchmark
    public List<HoldTestResult> estimating() {
        return estimate(trace, tests);
    }

    private static List<HoldTestResult> estimate(Trace trace, List<HoldTest> tests) {
        List<HoldTestResult> results = new ArrayList<>();
        for (HoldTest test : tests) {
            results.add(
                    HoldTestEstimator.estimate(trace, test, InventedSession.setup(), EstimateOptions.none()));
        }
        return results;
    }
}
