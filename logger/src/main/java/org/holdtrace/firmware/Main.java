package org.holdtrace.firmware;

import java.io.FileDescriptor;
import java.io.FileOutputStream;
import java.io.IOException;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.AccessDeniedException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.FileSystemException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.time.Clock;
import java.util.List;
import java.util.Optional;
import org.holdtrace.adc.AdcException;
import org.holdtrace.record.Mender;

/** The logger's command line. */
public final class Main {
    private static final int DONE = 0;
    private static final int FAILED = 1;
    private static final int WRONG_CALL = 2;

    private Main() {}

    /** Runs the command {@code args} call and ends the process with its exit code. */
    public static void main(String[] args) {
        PrintStream out = new PrintStream(new FileOutputStream(FileDescriptor.out), true, StandardCharsets.UTF_8);
        PrintStream err = new PrintStream(new FileOutputStream(FileDescriptor.err), true, StandardCharsets.UTF_8);
        System.exit(run(args, out, err));
    }

    static int run(String[] args, PrintStream out, PrintStream err) {
        try {
            Options options = Options.parse(args);
            if (options.help()) {
                out.print(Options.helpText());
                return DONE;
            }
            if (options.version()) {
                out.println(Version.SOFTWARE);
                return DONE;
            }
            return run(options, out, err);
        } catch (UsageException e) {
            err.println("holdtrace logger: " + e.getMessage());
            err.println("Call it with --help to see what it understands.");
            return WRONG_CALL;
        } catch (AdcException | IOException e) {
            err.println("holdtrace logger: " + words(e));
            return FAILED;
        }
    }

    /** Java names a file that cannot be had and often nothing else. */
    private static String words(Exception e) {
        if (!(e instanceof FileSystemException system) || system.getReason() != null) {
            return e.getMessage();
        }
        if (e instanceof NoSuchFileException) {
            return system.getFile() + ": there is no such file or folder";
        } else if (e instanceof FileAlreadyExistsException) {
            return system.getFile() + ": is a file; expected a folder";
        } else if (e instanceof AccessDeniedException) {
            return system.getFile() + ": this user may not read or write it";
        }
        return system.getFile() + ": cannot be read or written";
    }

    @SuppressWarnings("try") // The folder is held, nothing is asked of it.
    private static int run(Options options, PrintStream out, PrintStream err)
            throws UsageException, IOException, AdcException {
        if (options.command().equals("mend")) {
            mend(options, out);
            return DONE;
        }
        try (Bench bench = new Bench(options)) {
            Path sessions = bench.configuration().storage().sessions();
            if (options.command().equals("check")) {
                return WiringCheck.run(bench, out) ? DONE : FAILED;
            }
            Files.createDirectories(bench.configuration().storage().state());
            try (DataFolder held = DataFolder.take(sessions)) {
                switch (options.command()) {
                    case "zero" -> new OneReading(bench, out).zero(new WallClock(Clock.systemUTC()));
                    case "calibrate" -> new OneReading(bench, out).calibrate(options, new WallClock(Clock.systemUTC()));
                    default -> {
                        return new Run(options, bench, err).untilEnded() ? DONE : FAILED;
                    }
                }
            }
            return DONE;
        }
    }

    /** How a logger is wired does not matter to what it left behind: with --data no configuration is asked for. */
    private static void mend(Options options, PrintStream out) throws IOException {
        Optional<String> data = options.value("--data");
        Path sessions;
        if (data.isPresent()) {
            sessions = Path.of(data.get());
        } else {
            try (Bench bench = new Bench(options)) {
                sessions = bench.configuration().storage().sessions();
            }
        }
        if (!Files.isDirectory(sessions)) {
            throw new NoSuchFileException(
                    sessions.toString(),
                    null,
                    "there is no such folder; expected the folder a logger keeps its sessions in");
        }
        try (DataFolder held = DataFolder.take(sessions)) {
            List<Mender.Finding> findings = Mender.mend(held.path());
            findings.forEach(finding -> out.println(finding.text()));
            if (findings.isEmpty()) {
                out.println("every session here was ended on purpose");
            }
        }
    }
}
