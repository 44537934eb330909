package org.holdtrace.desk;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;
import java.util.function.Function;
import java.util.function.Supplier;
import org.holdtrace.desk.work.OpenRecording;
import org.holdtrace.desk.work.Workspace;

/** What the desk has written by the commands of the same names, asked about as its results are. On the event thread. */
final class Written {
    private final Workspace workspace;
    private final Calls calls;
    private final Output output;
    private final Asking asking;
    private final Supplier<String> units;
    private final Consumer<List<Path>> bringIn;

    /**
     * @param asking what is asked of all results beyond the setups
     * @param units the units of the desk
     * @param bringIn brings in what was simulated
     */
    Written(
            Workspace workspace,
            Calls calls,
            Output output,
            Asking asking,
            Supplier<String> units,
            Consumer<List<Path>> bringIn) {
        this.workspace = workspace;
        this.calls = calls;
        this.output = output;
        this.asking = asking;
        this.units = units;
        this.bringIn = bringIn;
    }

    /** Writes a report on the recording that is looked at, or on all. */
    void report(boolean all) {
        write("Writing the report", paths -> output.report(paths, units.get()), all);
    }

    /** Writes samples and results of all recordings. */
    void export() {
        write("Exporting", output::export, true);
    }

    /** Writes a picture of each hold test of all recordings. */
    void pictures() {
        write("Drawing", output::pictures, true);
    }

    private void write(String what, Function<List<Path>, Optional<List<String>>> ask, boolean all) {
        List<Path> paths = new ArrayList<>();
        for (OpenRecording each : workspace.recordings()) {
            if (all || workspace.chosen().filter(each::equals).isPresent()) {
                paths.add(each.path());
            }
        }
        if (paths.isEmpty() || calls.isBusy()) {
            return;
        }
        ask.apply(paths).ifPresent(words -> {
            List<String> asked = new ArrayList<>(words);
            asked.addAll(asking.words());
            calls.call(what, asked, told -> {});
        });
    }

    /** Lets somebody choose a simulated line; its session is written and comes onto the desk. */
    void simulate() {
        if (!calls.isBusy()) {
            output.simulate()
                    .ifPresent(words -> calls.call("Simulating", words, told -> {
                        if (told.exitCode() == 0) {
                            bringIn.accept(List.of(Path.of(words.get(words.size() - 1))));
                        }
                    }));
        }
    }
}
