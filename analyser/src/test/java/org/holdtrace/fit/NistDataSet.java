package org.holdtrace.fit;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * A data set of the NIST/ITL Statistical Reference Datasets, nonlinear regression: starts, certified values and data
 * from one file of NIST's layout.
 */
final class NistDataSet {
    private static final Pattern PARAMETER =
            Pattern.compile("\\s*b\\d+\\s*=\\s*(\\S+)\\s+(\\S+)\\s+(\\S+)\\s+(\\S+)\\s*");

    final List<double[]> starts = new ArrayList<>();
    double[] certified;
    double[] standardDeviation;
    double residualSumOfSquares = Double.NaN;
    double residualStandardDeviation = Double.NaN;
    int degreesOfFreedom = -1;
    double[] x;
    double[] y;
    /** Observations as the file writes them, for arithmetic finer than double. */
    final List<String> exactY = new ArrayList<>();

    final List<String> exactX = new ArrayList<>();

    /** From the test artifact of Apache Commons Math 3.6.1, which carries NIST's own files. */
    static NistDataSet fromLibrary(String name) {
        return new NistDataSet("/org/apache/commons/math3/fitting/leastsquares/" + name + ".dat");
    }

    /** From this project's test resources. */
    static NistDataSet fromResources(String name) {
        return new NistDataSet("/nist/" + name + ".dat");
    }

    private NistDataSet(String resource) {
        List<String[]> parameters = new ArrayList<>();
        try (InputStream in = NistDataSet.class.getResourceAsStream(resource);
                BufferedReader reader = new BufferedReader(new InputStreamReader(in, StandardCharsets.US_ASCII))) {
            boolean data = false;
            for (String line = reader.readLine(); line != null; line = reader.readLine()) {
                Matcher matcher = PARAMETER.matcher(line);
                String[] words = line.trim().split("\\s+", -1);
                if (data && words.length == 2) {
                    exactY.add(words[0]);
                    exactX.add(words[1]);
                } else if (matcher.matches()) {
                    parameters.add(
                            new String[] {matcher.group(1), matcher.group(2), matcher.group(3), matcher.group(4)});
                } else if (line.startsWith("Residual Sum of Squares:")) {
                    residualSumOfSquares = Double.parseDouble(words[4]);
                } else if (line.startsWith("Residual Standard Deviation:")) {
                    residualStandardDeviation = Double.parseDouble(words[3]);
                } else if (line.startsWith("Degrees of Freedom:")) {
                    degreesOfFreedom = Integer.parseInt(words[3]);
                }
                data |= line.matches("Data:\\s+y\\s+x\\s*");
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        for (int s = 0; s < 2; s++) {
            int column = s;
            starts.add(parameters.stream()
                    .mapToDouble(p -> Double.parseDouble(p[column]))
                    .toArray());
        }
        certified =
                parameters.stream().mapToDouble(p -> Double.parseDouble(p[2])).toArray();
        standardDeviation =
                parameters.stream().mapToDouble(p -> Double.parseDouble(p[3])).toArray();
        x = exactX.stream().mapToDouble(Double::parseDouble).toArray();
        y = exactY.stream().mapToDouble(Double::parseDouble).toArray();
    }

    int size() {
        return x.length;
    }

    /** A model curve. */
    @FunctionalInterface
    interface Curve {
        double at(double x, double[] b);
    }

    /** Half the sum of squares of a curve's residuals against this set's observations. */
    SumOfSquares problem(Curve curve) {
        return new SumOfSquares(this, curve);
    }
}
