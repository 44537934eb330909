package org.holdtrace.command;

import java.io.BufferedWriter;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.holdtrace.trace.Trace;
import org.holdtrace.wording.Figures;

/** Writes a recording's samples as a trace that can be read again. */
final class SampleCsv {
    private SampleCsv() {}

    static void write(Path file, InputFile input, Trace trace) throws IOException {
        try (BufferedWriter out = Files.newBufferedWriter(file)) {
            out.write("# samples of " + input.name() + "; pressure as read, zero error included\n");
            if (trace.start().isPresent()) {
                out.write("# time 0 is " + trace.start().get() + "\n");
            }
            out.write("time [s],pressure [bar]");
            out.write(trace.hasOilTemperature() ? ",oil temperature [degC]" : "");
            out.write(trace.hasAmbientTemperature() ? ",ambient temperature [degC]" : "");
            out.write('\n');
            StringBuilder line = new StringBuilder();
            for (int i = 0; i < trace.size(); i++) {
                line.setLength(0);
                // A microsecond and a tenth of a pascal are finer than any converter.
                number(line, trace.timeS(i), 1e6);
                line.append(',');
                number(line, Figures.bar(trace.pressurePa(i)), 1e6);
                if (trace.hasOilTemperature()) {
                    line.append(',');
                    number(line, Figures.degC(trace.oilTemperatureK(i)), 1e3);
                }
                if (trace.hasAmbientTemperature()) {
                    line.append(',');
                    number(line, Figures.degC(trace.ambientTemperatureK(i)), 1e3);
                }
                line.append('\n');
                out.append(line);
            }
        }
    }

    /** Rounded to one part in {@code parts}; nothing where there is no number. */
    private static void number(StringBuilder line, double value, double parts) {
        if (Double.isFinite(value)) {
            line.append(Math.rint(value * parts) / parts);
        }
    }
}
