package org.holdtrace.benchmark;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Collection;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import java.util.concurrent.TimeUnit;
import org.holdtrace.rig.SimulatedRun;
import org.holdtrace.session.TraceWriter;
import org.holdtrace.trace.Phase;
import org.holdtrace.trace.PhaseSpan;
import org.openjdk.jmh.results.RunResult;
import org.openjdk.jmh.runner.Runner;
import org.openjdk.jmh.runner.RunnerException;
import org.openjdk.jmh.runner.options.CommandLineOptionException;
import org.openjdk.jmh.runner.options.CommandLineOptions;
import org.openjdk.jmh.runner.options.OptionsBuilder;

/**
 * Runs the benchmarks and states what matters as ratios, which hold on any machine. Beside them runs the SciPy script on
 * the same trace, where Python 3 with SciPy is installed.
 */
public final class Ratios {
    static final String TRACE_PROPERTY = "holdtrace.benchmark.trace";

    private Ratios() {}

    /**
     * Writes the trace, runs what is to be run, prints the ratios.
     *
     * @param args folder for the trace, the SciPy script, then options of JMH
     */
    public static void main(String[] args) throws IOException, RunnerException, CommandLineOptionException {
        Path trace = Path.of(args[0], "five-minutes-250-hz.csv");
        Files.createDirectories(trace.toAbsolutePath().getParent());
        SimulatedRun run = InventedSession.simulate();
        TraceWriter.write(run.trace(), trace);
        PhaseSpan hold = run.truth().tests().get(0).phase(Phase.HOLD).orElseThrow();

        String[] jmh = Arrays.copyOfRange(args, 2, args.length);
        Collection<RunResult> results = new Runner(new OptionsBuilder()
                        .parent(new CommandLineOptions(jmh))
                        .jvmArgsAppend("-D" + TRACE_PROPERTY + "=" + trace)
                        .build())
                .run();
        Map<String, Double> seconds = new TreeMap<>();
        for (RunResult result : results) {
            String name = result.getParams().getBenchmark();
            TimeUnit unit = result.getParams().getTimeUnit();
            double perSecond = TimeUnit.SECONDS.toNanos(1) / (double) unit.toNanos(1);
            seconds.put(
                    name.substring(name.indexOf("benchmark.") + 10),
                    result.getPrimaryResult().getScore() / perSecond);
        }
        System.out.println();
        System.out.println("samples in the trace: " + run.trace().size());
        ratio("Commons Math / own fit with derivatives", seconds, "FitBenchmark.commonsMath", "FitBenchmark.ownWithDerivatives");
        Double session = seconds.get("SessionBenchmark.fileToResult");
        if (session != null) {
            System.out.printf(Locale.ROOT, "file to result: %.1f ms%n", 1e3 * session);
            ScipyTimes scipy = scipy(Path.of(args[1]), trace, hold);
            if (scipy.total() > 0) {
                against("SciPy fits of the hold, all laws", scipy.total(), session);
                against("SciPy fit of the hold, quickest law", scipy.quickest(), session);
            }
        }
    }

    private static void ratio(String what, Map<String, Double> seconds, String slow, String fast) {
        if (seconds.containsKey(slow) && seconds.containsKey(fast)) {
            System.out.printf(Locale.ROOT, "%s: %.2f%n", what, seconds.get(slow) / seconds.get(fast));
        }
    }

    private static void against(String what, double scipy, double session) {
        System.out.printf(
                Locale.ROOT,
                "%s / whole analysis from file to result: %.2f s / %.4f s = %.0f%n",
                what,
                scipy,
                session,
                scipy / session);
    }

    /** Seconds that the fits of all laws took, and the quickest of them. */
    private record ScipyTimes(double total, double quickest) {}

    /** What the script says its fits took; 0 where it could not be run. */
    private static ScipyTimes scipy(Path script, Path trace, PhaseSpan hold) throws IOException {
        Process process;
        try {
            process = new ProcessBuilder(
                            "python3",
                            script.toString(),
                            trace.toString(),
                            "--from",
                            Double.toString(hold.fromS()),
                            "--to",
                            Double.toString(hold.toS()))
                    .redirectError(ProcessBuilder.Redirect.INHERIT)
                    .start();
        } catch (IOException e) {
            System.out.println("no SciPy ratio: " + e.getMessage());
            return new ScipyTimes(0, 0);
        }
        double total = 0;
        double quickest = Double.POSITIVE_INFINITY;
        try (BufferedReader reader =
                new BufferedReader(new InputStreamReader(process.getInputStream(), StandardCharsets.UTF_8))) {
            for (String line = reader.readLine(); line != null; line = reader.readLine()) {
                System.out.println("  " + line);
                String mark = "fit time [s]: ";
                int at = line.indexOf(mark);
                if (line.startsWith("total ")) {
                    total = Double.parseDouble(line.substring(at + mark.length()));
                } else if (at >= 0) {
                    quickest = Math.min(
                            quickest, Double.parseDouble(line.substring(at + mark.length(), line.indexOf(',', at))));
                }
            }
        }
        return new ScipyTimes(total, quickest);
    }
}
