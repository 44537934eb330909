package org.holdtrace.firmware;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.holdtrace.link.LinkLimits;
import org.holdtrace.quantity.NearMatch;

/** What the program was called with. */
final class Options {
    /** Commands and what they do, in the order of the help. */
    static final Map<String, String> COMMANDS = commands();

    /** Options that take a value, and what they mean. */
    private static final Map<String, String> VALUED = valued();

    private static final String FRESH = "--fresh";

    private final String command;
    private final Map<String, String> values;
    private final boolean fresh;
    private final boolean help;
    private final boolean version;

    private Options(String command, Map<String, String> values, boolean fresh, boolean help, boolean version) {
        this.command = command;
        this.values = values;
        this.fresh = fresh;
        this.help = help;
        this.version = version;
    }

    private static Map<String, String> commands() {
        Map<String, String> all = new LinkedHashMap<>();
        all.put("run", "samples, records and serves the link until it is told to end (the usual command)");
        all.put("check", "looks whether everything is wired and allowed, and names what is missing");
        all.put("mend", "closes sessions that were cut short, and says what is in them");
        all.put("zero", "takes the present pressure as zero");
        all.put("calibrate", "compares the present reading with a reference; two points make a calibration");
        return all;
    }

    private static Map<String, String> valued() {
        Map<String, String> all = new LinkedHashMap<>();
        all.put("--config", "FILE  how the logger is wired (" + Configuration.USUAL_FILE + ")");
        all.put("--data", "DIR  where sessions and calibration are kept");
        all.put("--plan", "FILE.setup.json  what is known of the next test");
        all.put("--simulate", "FILE.rig.json  a simulated line in the place of the converter's inputs");
        all.put("--panel", "terminal|gpio|none  button, lamps and beeper");
        all.put("--tcp", "[ADDRESS:]PORT  listen there; beyond this computer only with a key");
        all.put("--serial", "PATH  serve the link on this port");
        all.put("--baud", "NUMBER  its speed, where it is no USB cable (" + LinkLimits.USUAL_BAUD + ")");
        all.put("--key", "FILE  the shared key");
        all.put("--input", "NAME  which input to calibrate (the first)");
        all.put("--at", "QUANTITY  what the reference shows, such as \"100 bar\"");
        all.put("--reference", "TEXT  what the reference is");
        return all;
    }

    static Options parse(String[] args) throws UsageException {
        String command = "";
        Map<String, String> values = new LinkedHashMap<>();
        boolean fresh = false;
        boolean help = false;
        boolean version = false;
        for (int i = 0; i < args.length; i++) {
            String word = args[i];
            if (word.equals("--help") || word.equals("-h")) {
                help = true;
            } else if (word.equals("--version")) {
                version = true;
            } else if (word.equals(FRESH)) {
                fresh = true;
            } else if (VALUED.containsKey(word)) {
                if (i + 1 == args.length) {
                    throw new UsageException(word + " needs a value: " + VALUED.get(word));
                }
                if (values.put(word, args[++i]) != null) {
                    throw new UsageException(word + " is given twice");
                }
            } else if (word.startsWith("-")) {
                throw new UsageException("unknown option " + word + meant(word, VALUED.keySet()));
            } else if (command.isEmpty() && COMMANDS.containsKey(word)) {
                command = word;
            } else {
                throw new UsageException("unknown command " + word + meant(word, COMMANDS.keySet())
                        + "; the commands are " + String.join(", ", COMMANDS.keySet()));
            }
        }
        return new Options(command.isEmpty() ? "run" : command, values, fresh, help, version);
    }

    private static String meant(String word, Iterable<String> known) {
        List<String> all = new ArrayList<>();
        known.forEach(all::add);
        return NearMatch.of(word, all)
                .map(near -> " (did you mean " + near + "?)")
                .orElse("");
    }

    String command() {
        return command;
    }

    boolean help() {
        return help;
    }

    boolean version() {
        return version;
    }

    /** Whether what was compared before is to be forgotten. */
    boolean fresh() {
        return fresh;
    }

    Optional<String> value(String option) {
        return Optional.ofNullable(values.get(option));
    }

    /** What {@code --help} prints. */
    static String helpText() {
        StringBuilder text = new StringBuilder("""
                The Holdtrace logger: reads a pressure transducer, records hold tests, serves the link.

                Before the first stroke: energy isolated and locked out, raised parts secured, stored pressure
                released as the maker says and shown to be gone, every part rated above what the pump can reach,
                no hand near a suspected leak. Local codes and licensed practice come first.

                  java -jar logger.jar [COMMAND] [OPTION…]

                """);
        COMMANDS.forEach((name, does) -> text.append(String.format(Locale.ROOT, "  %-10s %s\n", name, does)));
        text.append("\n");
        VALUED.forEach((name, means) ->
                text.append("  ").append(name).append(' ').append(means).append("\n"));
        text.append("  ").append(FRESH).append("  with calibrate: forget what was compared before\n");
        text.append("  --help  this\n  --version  which version of the program this is\n");
        return text.toString();
    }
}
