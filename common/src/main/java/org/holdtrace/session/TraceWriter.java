package org.holdtrace.session;

import java.io.IOException;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.holdtrace.quantity.Unit;
import org.holdtrace.trace.Trace;

/**
 * Writes a trace as CSV that {@link CsvTraceReader} reads: {@code time [s],pressure [bar]} and the temperatures there
 * are, in degC. Where the wall-clock time of 0 is known it stands in a comment. The shortest number of at most 17 digits
 * that reads back to the sample itself, or, where the unit leaves no such number, to its neighbour.
 */
public final class TraceWriter {
    private TraceWriter() {}

    /** Writes {@code trace} to {@code file}, replacing what is there. */
    public static void write(Trace trace, Path file) throws IOException {
        write(trace, file, List.of());
    }

    /** As {@link #write(Trace, Path)}, with {@code comments} above it, a line each. */
    public static void write(Trace trace, Path file, List<String> comments) throws IOException {
        try (Writer out = Files.newBufferedWriter(file, StandardCharsets.UTF_8)) {
            for (String comment : comments) {
                out.append("# ").append(comment).append('\n');
            }
            write(trace, out);
        }
    }

    /** Writes {@code trace} to {@code out}, lines ended by \n. */
    public static void write(Trace trace, Writer out) throws IOException {
        if (trace.start().isPresent()) {
            out.append("# time 0 is ").append(trace.start().get().toString()).append('\n');
        }
        out.append("time [s],pressure [bar]");
        if (trace.hasOilTemperature()) {
            out.append(",oil temperature [degC]");
        }
        if (trace.hasAmbientTemperature()) {
            out.append(",ambient temperature [degC]");
        }
        out.append('\n');
        for (int i = 0; i < trace.size(); i++) {
            out.append(number(trace.timeS(i), Unit.S)).append(',').append(number(trace.pressurePa(i), Unit.BAR));
            if (trace.hasOilTemperature()) {
                out.append(',').append(number(trace.oilTemperatureK(i), Unit.DEG_C));
            }
            if (trace.hasAmbientTemperature()) {
                out.append(',').append(number(trace.ambientTemperatureK(i), Unit.DEG_C));
            }
            out.append('\n');
        }
    }

    private static String number(double siValue, Unit unit) {
        if (Double.isNaN(siValue)) {
            return "";
        }
        double nearest = unit.fromSi(siValue);
        // Most samples came from a few decimals; rounded to 12 digits they are those again.
        double short12 = round(nearest);
        double[] candidates = {short12, nearest, Math.nextUp(nearest), Math.nextDown(nearest)};
        for (double candidate : candidates) {
            if (unit.toSi(candidate) == siValue) {
                return Double.toString(candidate);
            }
        }
        return Double.toString(nearest);
    }

    private static double round(double value) {
        double scale = Math.pow(10, 11 - Math.floor(Math.log10(Math.abs(value))));
        double rounded = Math.rint(value * scale) / scale;
        return Double.isFinite(rounded) ? rounded : value;
    }
}
