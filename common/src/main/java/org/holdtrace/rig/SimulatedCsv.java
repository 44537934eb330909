package org.holdtrace.rig;

import java.io.IOException;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import org.holdtrace.fluid.Oil;
import org.holdtrace.trace.Trace;

/** Writes a simulated recording as a trace with as many digits as a plain data logger gives; the truth in comments. */
final class SimulatedCsv {
    private static final double CM3_PER_MIN = 1e-6 / 60;
    private static final double BAR = 1e5;

    /** The first line of a trace that was never measured. */
    static final String FIRST_LINE = "# " + RigFile.SIMULATED;

    private SimulatedCsv() {}

    static void write(SimulatedRun run, Path file) throws IOException {
        try (Writer out = Files.newBufferedWriter(file, StandardCharsets.UTF_8)) {
            comments(run.truth(), out);
            Trace trace = run.trace();
            out.append("time [s],pressure [bar]");
            out.append(trace.hasOilTemperature() ? ",oil temperature [degC]" : "");
            out.append(trace.hasAmbientTemperature() ? ",ambient temperature [degC]" : "");
            out.append('\n');
            for (int i = 0; i < trace.size(); i++) {
                out.append(number("%.4f", trace.timeS(i)));
                out.append(',').append(number("%.3f", trace.pressurePa(i) / BAR));
                if (trace.hasOilTemperature()) {
                    out.append(',').append(number("%.2f", trace.oilTemperatureK(i) - Oil.ZERO_CELSIUS_K));
                }
                if (trace.hasAmbientTemperature()) {
                    out.append(',').append(number("%.2f", trace.ambientTemperatureK(i) - Oil.ZERO_CELSIUS_K));
                }
                out.append('\n');
            }
        }
    }

    private static void comments(Truth truth, Writer out) throws IOException {
        out.append(FIRST_LINE).append('\n');
        out.append("# true law: ").append(truth.law().label()).append('\n');
        for (Truth.Test test : truth.tests()) {
            double at = test.plateauMeanPa().orElse(0.5 * (test.peakPa() + test.holdEndPa()));
            out.append("# hold test ")
                    .append(Integer.toString(test.number()))
                    .append(": true leak ")
                    .append(number("%.4f", truth.leakM3PerS(at) / CM3_PER_MIN))
                    .append(" cm3/min at ")
                    .append(number("%.1f", at / BAR))
                    .append(" bar; true compliance there ")
                    .append(number("%.5f", truth.complianceM3PerPa(test.number() - 1, at) / 1e-6 * BAR))
                    .append(" cm3/bar\n");
        }
    }

    private static String number(String format, double value) {
        return String.format(Locale.ROOT, format, value);
    }
}
