package org.holdtrace.command;

import java.io.BufferedOutputStream;
import java.io.ByteArrayOutputStream;
import java.io.FileDescriptor;
import java.io.FileOutputStream;
import java.io.IOException;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.holdtrace.desk.Desk;
import org.holdtrace.desk.work.Commands;
import org.holdtrace.library.Failures;

/** The analyser's command line. */
public final class Main {
    private static final String HELP = "--help";
    private static final String HELP_SHORT = "-h";
    private static final String VERSION = "--version";
    private static final int OUT_BUFFER_BYTES = 1 << 16;

    private final List<Command> commands;

    Main(Steps steps) {
        commands = List.of(
                new AnalyseCommand(steps),
                new ReportCommand(steps),
                new ExportCommand(steps),
                new LiveCommand(),
                new FetchCommand(),
                new SimulateCommand(steps),
                new CaseCommand(steps));
    }

    /** Runs the command {@code args} call and ends the process with its exit code. */
    public static void main(String[] args) {
        ClassesAhead.begin(args);
        PrintStream out = new PrintStream(
                new BufferedOutputStream(new FileOutputStream(FileDescriptor.out), OUT_BUFFER_BYTES),
                false,
                StandardCharsets.UTF_8);
        PrintStream err = new PrintStream(new FileOutputStream(FileDescriptor.err), true, StandardCharsets.UTF_8);
        int code = new Main(new FileSteps())
                .run(args, new Streams(out, err, Terminal.isAtStandardError(), Terminal.isAtStandardOutput()));
        System.exit(code);
    }

    /** Runs the command {@code args} call and returns its exit code. */
    int run(String[] args, Streams streams) {
        try {
            int code = dispatch(Arrays.asList(args), streams);
            if (streams.out().checkError()) {
                streams.problem("standard output: not everything could be written to it");
                return ExitCode.SOME_REFUSED;
            }
            return code;
        } catch (UsageException e) {
            streams.problem(e.getMessage());
            streams.err().println("Call it with --help to see what it understands.");
            return ExitCode.WRONG_CALL;
        } catch (IOException e) {
            streams.problem(Failures.sentence("output", e));
            return ExitCode.SOME_REFUSED;
        }
    }

    private int dispatch(List<String> words, Streams streams) throws UsageException, IOException {
        if (words.isEmpty()) {
            Optional<String> why = Desk.run(this::forDesk);
            why.ifPresent(streams::problem);
            return why.isPresent() ? ExitCode.WRONG_CALL : ExitCode.DONE;
        }
        String first = words.get(0);
        if (first.equals(HELP) || first.equals(HELP_SHORT)) {
            streams.out().print(HelpText.overview(commands));
            return ExitCode.DONE;
        }
        if (first.equals(VERSION)) {
            streams.out().println(program());
            return ExitCode.DONE;
        }
        Command command = find(first);
        List<String> rest = words.subList(1, words.size());
        if (rest.contains(HELP) || rest.contains(HELP_SHORT)) {
            streams.out().print(HelpText.of(command));
            return ExitCode.DONE;
        }
        return command.run(Arguments.parse(rest, command.options()), streams);
    }

    /** Runs a command for the desk, which hears what it said. */
    Commands.Told forDesk(List<String> words) {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        ByteArrayOutputStream err = new ByteArrayOutputStream();
        try (PrintStream results = new PrintStream(out, false, StandardCharsets.UTF_8);
                PrintStream problems = new PrintStream(err, false, StandardCharsets.UTF_8)) {
            int code = run(words.toArray(new String[0]), Streams.toDesk(results, problems));
            results.flush();
            problems.flush();
            return new Commands.Told(code, out.toString(StandardCharsets.UTF_8), err.toString(StandardCharsets.UTF_8));
        }
    }

    /** Name and version, as reports and loggers are told. */
    static String program() {
        return "Holdtrace " + version();
    }

    /** The program's version; "(development build)" where it does not run from its jar. */
    static String version() {
        String version = Main.class.getPackage().getImplementationVersion();
        return version == null ? "(development build)" : version;
    }

    private Command find(String word) throws UsageException {
        List<String> names = new ArrayList<>();
        for (Command command : commands) {
            if (command.name().equals(word)) {
                return command;
            }
            names.add(command.name());
        }
        throw new UsageException("unknown command " + word + Arguments.meant(word, names) + "; the commands are "
                + String.join(", ", names));
    }
}
