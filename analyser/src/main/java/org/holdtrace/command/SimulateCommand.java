package org.holdtrace.command;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.holdtrace.library.Failures;
import org.holdtrace.library.InputFile;

/** {@code simulate}: a simulated line and hand pump make a session, truth included. */
final class SimulateCommand implements Command {
    private static final String OUT = "--out";
    private static final String REPLACE = "--replace";

    private final Steps steps;

    SimulateCommand(Steps steps) {
        this.steps = steps;
    }

    @Override
    public String name() {
        return "simulate";
    }

    @Override
    public String summary() {
        return "a session from a simulated line and hand pump, with the true leak in it";
    }

    @Override
    public String synopsis() {
        return "FILE.rig.json --out NAME.hold [options]";
    }

    @Override
    public List<String> description() {
        return List.of(
                "Simulates the hold test that FILE.rig.json describes (line, oil, air, pump, hand, leak, transducer)",
                "and records it as a session. The same file gives the same session. What is simulated is marked as",
                "such in the session, and the truth stands in it, so that an estimate can be compared with it.",
                "Where NAME ends in .csv a trace is written instead, the truth in its comments. A simulated file",
                "that is there already is written over; anything else only with --replace.");
    }

    @Override
    public List<Option> options() {
        return List.of(
                Option.valued(OUT, "NAME.hold", "the session or trace to write"),
                Option.flag(REPLACE, "write over whatever is there already"));
    }

    @Override
    public int run(Arguments arguments, Streams streams) throws UsageException, IOException {
        if (arguments.operands().size() != 1) {
            throw new UsageException("expected exactly one rig file, was given "
                    + arguments.operands().size());
        }
        String rig = arguments.operands().get(0);
        Path rigFile = Inputs.path(rig);
        if (!Files.isRegularFile(rigFile)) {
            throw new UsageException(rig + ": there is no such file");
        }
        Path session = Inputs.path(arguments.required(OUT));
        if (!session.toString().endsWith(InputFile.SESSION_ENDING)
                && !session.toString().endsWith(InputFile.TRACE_ENDING)) {
            throw new UsageException(OUT + ": \"" + session + "\" must end in " + InputFile.SESSION_ENDING + " or "
                    + InputFile.TRACE_ENDING);
        }
        Path folder = session.toAbsolutePath().getParent();
        if (folder == null || !Files.isDirectory(folder)) {
            throw new UsageException(
                    OUT + ": there is no folder " + folder + " to write " + session.getFileName() + " into");
        }
        if (!arguments.has(REPLACE) && !steps.isSimulated(session)) {
            OutputFolder.refuseExisting(List.of(session), REPLACE);
        }
        try {
            steps.simulate(rigFile, session);
        } catch (IOException e) {
            streams.problem(Failures.sentence(rig, e));
            return ExitCode.SOME_REFUSED;
        }
        return ExitCode.DONE;
    }
}
