package org.holdtrace.virtualpi;

import java.io.IOException;
import java.nio.file.Path;
import java.util.Locale;
import org.holdtrace.session.HoldFileReader;
import org.holdtrace.trace.Trace;

/** A recorded hold test as voltages at the converter's pin: 0.5 to 4.5 V for 250 bar at 5 V, divided by 10 and 15 kΩ. */
final class Recording {
    /** Pressure is let off through it in each test: the moment is found to some ms. */
    private static final double CROSSED_PA = 60e5;

    private final Trace trace;

    Recording(Path session) throws IOException {
        trace = HoldFileReader.read(session).trace();
    }

    /** The voltage it begins with, µV. */
    long restUv() {
        return uv(0);
    }

    private long uv(int i) {
        return Math.round(0.6 * (0.5 + 4 * trace.pressurePa(i) / 250e5) * 1e6);
    }

    /** Lines of µs and µV for the converter's model. */
    String wave() {
        StringBuilder lines = new StringBuilder(20 * trace.size());
        long before = -1;
        for (int i = 0; i < trace.size(); i++) {
            long us = Math.round((trace.timeS(i) - trace.timeS(0)) * 1e6);
            if (us > before) {
                lines.append(String.format(Locale.ROOT, "%d %d\n", us, uv(i)));
                before = us;
            }
        }
        return lines.toString();
    }

    double lengthS() {
        return trace.timeS(trace.size() - 1) - trace.timeS(0);
    }

    /** What must be added to the times of {@code other}, a recording of the same pressures, to get this one's, s. */
    double shiftS(Trace other) {
        return crossingS(trace) - trace.timeS(0) - crossingS(other);
    }

    private static double crossingS(Trace of) {
        for (int i = 1; i < of.size(); i++) {
            if (of.pressurePa(i - 1) < CROSSED_PA && of.pressurePa(i) >= CROSSED_PA) {
                double part = (CROSSED_PA - of.pressurePa(i - 1)) / (of.pressurePa(i) - of.pressurePa(i - 1));
                return of.timeS(i - 1) + part * (of.timeS(i) - of.timeS(i - 1));
            }
        }
        throw new AssertionError("60 bar were never reached");
    }
}
