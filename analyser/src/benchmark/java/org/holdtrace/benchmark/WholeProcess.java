package org.holdtrace.benchmark;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import org.holdtrace.session.SetupWriter;
import org.holdtrace.session.TraceWriter;

/**
 * The shipped jar as a process, against a Java machine that does nothing, and what long traces cost it. Runs take turns,
 * so that whatever else the machine does falls on both.
 */
public final class WholeProcess {
    private static final int ROUNDS = 15;
    private static final double LONG_RATE_HZ = 860;
    private static final int[] LONG_SAMPLES = {1_000_000, 3_000_000, 10_000_000};
    private static final int MOST_HEAP_MB = 512;

    private WholeProcess() {}

    /**
     * Writes traces, analyses them, prints the ratios.
     *
     * @param args folder for the traces, the analyser's jar, the folder with {@link Empty}'s class file
     */
    public static void main(String[] args) throws IOException, InterruptedException {
        Path folder = Files.createDirectories(Path.of(args[0]));
        String jar = args[1];
        Path session = folder.resolve("whole-process.csv");
        write(session, 250, 268);
        List<String> empty = List.of("-cp", args[2], Empty.class.getName());
        List<String> analyse = List.of("-jar", jar, "analyse", session.toString());
        double[] emptyS = new double[ROUNDS];
        double[] analyseS = new double[ROUNDS];
        for (int i = -2; i < ROUNDS; i++) {
            double nothing = seconds(empty);
            double something = seconds(analyse);
            if (i >= 0) {
                emptyS[i] = nothing;
                analyseS[i] = something;
            }
        }
        System.out.printf(
                Locale.ROOT,
                "whole process, five minutes at 250 Hz / empty main: %.3f s / %.3f s = %.2f (medians of %d)%n",
                median(analyseS),
                median(emptyS),
                median(analyseS) / median(emptyS),
                ROUNDS);
        longTraces(folder, jar);
    }

    private static void longTraces(Path folder, String jar) throws IOException, InterruptedException {
        double firstPerSample = Double.NaN;
        for (int samples : LONG_SAMPLES) {
            Path file = folder.resolve("long.csv");
            write(file, LONG_RATE_HZ, samples / LONG_RATE_HZ);
            double took = seconds(List.of("-Xmx" + MOST_HEAP_MB + "m", "-jar", jar, "analyse", file.toString()));
            double perSample = took / samples;
            firstPerSample = Double.isNaN(firstPerSample) ? perSample : firstPerSample;
            System.out.printf(
                    Locale.ROOT,
                    "%,d samples (%d MB of text) in a heap of %d MB: %.2f s, %.0f ns a sample, %.2f of the first%n",
                    samples,
                    Files.size(file) >> 20,
                    MOST_HEAP_MB,
                    took,
                    1e9 * perSample,
                    perSample / firstPerSample);
            Files.delete(file);
        }
    }

    private static void write(Path file, double rateHz, double holdS) throws IOException {
        TraceWriter.write(InventedSession.simulate(rateHz, holdS).trace(), file);
        String name = file.getFileName().toString();
        SetupWriter.write(
                InventedSession.setup(),
                file.resolveSibling(name.substring(0, name.length() - ".csv".length()) + ".setup.json"));
    }

    /** Wall time of a Java process with these arguments, which must end well. */
    private static double seconds(List<String> arguments) throws IOException, InterruptedException {
        List<String> command = new ArrayList<>();
        command.add(Path.of(System.getProperty("java.home"), "bin", "java").toString());
        command.addAll(arguments);
        long start = System.nanoTime();
        Process process = new ProcessBuilder(command)
                .redirectOutput(ProcessBuilder.Redirect.DISCARD)
                .redirectError(ProcessBuilder.Redirect.INHERIT)
                .start();
        int exit = process.waitFor();
        if (exit != 0) {
            throw new IOException("exit code " + exit + " of java " + String.join(" ", arguments));
        }
        return (System.nanoTime() - start) / 1e9;
    }

    private static double median(double[] values) {
        double[] sorted = values.clone();
        Arrays.sort(sorted);
        return sorted[sorted.length / 2];
    }
}
