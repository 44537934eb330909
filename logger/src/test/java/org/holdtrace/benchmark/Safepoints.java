package org.holdtrace.benchmark;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;

/** When the Java machine stopped its threads, from its own log: what of a gap the program itself is to blame for. */
final class Safepoints {
    /** What has the machine write that log, with times on the clock of {@link System#nanoTime}, from a thread of its own. */
    static List<String> logTo(Path file) {
        return List.of("-Xlog:async", "-Xlog:safepoint=info:file=" + file + ":tn:filecount=0");
    }

    private static final Pattern LINE = Pattern.compile("\\[(\\d+)ns\\].*Safepoint \"([^\"]*)\".* Total: +(\\d+) ns.*");

    private record Stop(String why, long fromNs, long untilNs) {
        double ms() {
            return (untilNs - fromNs) / 1e6;
        }
    }

    private final List<Stop> stops = new ArrayList<>();

    /** Reads the log. */
    Safepoints(Path file) throws IOException {
        for (String line : Files.readAllLines(file)) {
            Matcher matcher = LINE.matcher(line);
            if (matcher.matches()) {
                long untilNs = Long.parseLong(matcher.group(1));
                stops.add(new Stop(matcher.group(2), untilNs - Long.parseLong(matcher.group(3)), untilNs));
            }
        }
    }

    /** How many there were, how long in all and at the most. */
    String summary() {
        return String.format(
                Locale.ROOT,
                "%d safepoints, %.1f ms in all, %.2f ms at the most",
                stops.size(),
                stops.stream().mapToDouble(Stop::ms).sum(),
                stops.stream().mapToDouble(Stop::ms).max().orElse(0));
    }

    /** Those of a stretch of time, in words. */
    String within(long fromNs, long untilNs) {
        String found = stops.stream()
                .filter(stop -> stop.untilNs >= fromNs && stop.fromNs <= untilNs)
                .map(stop -> String.format(Locale.ROOT, "%s %.2f ms", stop.why, stop.ms()))
                .collect(Collectors.joining(", "));
        return found.isEmpty() ? "no safepoint" : "safepoints: " + found;
    }
}
