package org.holdtrace.desk;

import java.io.File;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.CancellationException;
import java.util.concurrent.ExecutionException;
import java.util.function.BiConsumer;
import java.util.function.Consumer;
import javax.swing.JComboBox;
import javax.swing.JFileChooser;
import javax.swing.JFrame;
import javax.swing.JLabel;
import javax.swing.JOptionPane;
import javax.swing.JPanel;
import javax.swing.SwingWorker;
import org.holdtrace.desk.look.FileChooser;
import org.holdtrace.desk.work.Background;
import org.holdtrace.desk.work.Commands;
import org.holdtrace.desk.work.DeskState;
import org.holdtrace.library.CaseStudy;
import org.holdtrace.library.Failures;
import org.holdtrace.library.InputFile;

/** Reports, exports and pictures: asks where to, and has the command of that name write them. On the event thread. */
final class Output {
    private static final String RIG_ENDING = ".rig.json";

    /** Options after which stands where a command writes to. */
    private static final Set<String> PLACES = Set.of("--out", "--charts", "--plan");

    private final JFrame frame;
    private final DeskState state;
    private final Commands commands;

    Output(JFrame frame, DeskState state, Commands commands) {
        this.frame = frame;
        this.state = state;
        this.commands = commands;
    }

    /** Words that call for a report on {@code recordings}; empty where somebody thought better of it. */
    Optional<List<String>> report(List<Path> recordings, String units) {
        JFileChooser chooser = chooser("A report (.pdf or .html)", "choose report");
        chooser.setSelectedFile(new File(chooser.getCurrentDirectory(), "report.pdf"));
        JComboBox<String> paper = choice(chooser, "Paper", "paper", List.of("a4", "letter"));
        if (chooser.showDialog(frame, "Write it") != JFileChooser.APPROVE_OPTION) {
            return Optional.empty();
        }
        Path file = chooser.getSelectedFile().toPath();
        String name = file.getFileName().toString();
        if (!name.endsWith(".pdf") && !name.endsWith(".html")) {
            file = file.resolveSibling(name + ".pdf");
        }
        if (Files.exists(file) && !replaces(file)) {
            return Optional.empty();
        }
        remember(file.toAbsolutePath().getParent());
        state.put("paper", (String) paper.getSelectedItem());
        return Optional.of(words(
                "report", recordings, "--out", file.toString(), "--units", units, "--paper", state.get("paper", "")));
    }

    /** Words that call for samples and results of {@code recordings}. */
    Optional<List<String>> export(List<Path> recordings) {
        JFileChooser chooser = folderChooser("Samples and results into", "choose export");
        JComboBox<String> format = choice(chooser, "Format", "format", List.of("csv", "json"));
        return folder(chooser).map(each -> {
            state.put("format", (String) format.getSelectedItem());
            return words(
                    "export", recordings, "--out", each.toString(), "--replace", "--format", state.get("format", ""));
        });
    }

    /** Words that call for a picture of each hold test of {@code recordings}. */
    Optional<List<String>> pictures(List<Path> recordings) {
        return folder(folderChooser("Pictures (.svg) into", "choose pictures"))
                .map(each -> words("analyse", recordings, "--charts", each.toString()));
    }

    /** A case that somebody chooses. */
    Optional<Path> chooseCase() {
        JFileChooser chooser = Choosers.open(state, "choose case", "A case (.case.json)");
        return chooser.showDialog(frame, "Judge it") == JFileChooser.APPROVE_OPTION
                ? Optional.of(chooser.getSelectedFile().toPath())
                : Optional.empty();
    }

    /** Words that call for the sheet and the setup of a test proposed by {@code caseFile}, 1 for the best. */
    Optional<List<String>> plan(Path caseFile, int number, String units) {
        JFileChooser chooser = folderChooser("Sheet and setup into", "choose plan");
        JComboBox<String> paper = choice(chooser, "Paper", "paper", List.of("a4", "letter"));
        return folder(chooser).map(each -> {
            state.put("paper", (String) paper.getSelectedItem());
            return List.of(
                    "case",
                    caseFile.toString(),
                    "--plan",
                    each.toString(),
                    "--choose",
                    Integer.toString(number),
                    "--units",
                    units,
                    "--paper",
                    state.get("paper", ""));
        });
    }

    /** Words that call for a session simulated from a rig that somebody chooses. */
    Optional<List<String>> simulate() {
        JFileChooser rigs = Choosers.open(state, "choose rig", "A simulated line (.rig.json)");
        if (rigs.showDialog(frame, "Simulate it") != JFileChooser.APPROVE_OPTION) {
            return Optional.empty();
        }
        Path rig = rigs.getSelectedFile().toPath();
        JFileChooser chooser = chooser("The session to write (.hold, or .csv for a trace)", "choose simulated");
        String stem = rig.getFileName().toString().replace(RIG_ENDING, "");
        chooser.setSelectedFile(new File(chooser.getCurrentDirectory(), stem + InputFile.SESSION_ENDING));
        if (chooser.showDialog(frame, "Write it") != JFileChooser.APPROVE_OPTION) {
            return Optional.empty();
        }
        Path file = chooser.getSelectedFile().toPath();
        String name = file.getFileName().toString();
        if (!name.endsWith(InputFile.SESSION_ENDING) && !name.endsWith(InputFile.TRACE_ENDING)) {
            file = file.resolveSibling(name + InputFile.SESSION_ENDING);
        }
        remember(file.toAbsolutePath().getParent());
        // Without a word of replacing: the command writes over what was simulated and over nothing else.
        return Optional.of(List.of("simulate", rig.toString(), "--out", file.toString()));
    }

    /** Where {@code case --json} is to be written. */
    Optional<Path> caseJson(Path caseFile) {
        JFileChooser chooser = chooser("The findings for other programs (.json)", "choose findings");
        String stem = caseFile.getFileName().toString().replace(CaseStudy.ENDING, "");
        chooser.setSelectedFile(new File(chooser.getCurrentDirectory(), stem + ".findings.json"));
        if (chooser.showDialog(frame, "Write it") != JFileChooser.APPROVE_OPTION) {
            return Optional.empty();
        }
        Path file = chooser.getSelectedFile().toPath();
        if (Files.exists(file) && !replaces(file)) {
            return Optional.empty();
        }
        remember(file.toAbsolutePath().getParent());
        return Optional.of(file);
    }

    /** A choice of words beside the files, remembered under {@code name}. */
    private JComboBox<String> choice(JFileChooser chooser, String label, String name, List<String> words) {
        JComboBox<String> box = new JComboBox<>(words.toArray(new String[0]));
        box.setName(name);
        box.getAccessibleContext().setAccessibleName(label);
        box.setSelectedItem(state.get(name, words.get(0)));
        JPanel beside = new JPanel();
        beside.add(new JLabel(label + ":"));
        beside.add(box);
        chooser.setAccessory(beside);
        return box;
    }

    private static List<String> words(String command, List<Path> recordings, String... options) {
        List<String> words = new ArrayList<>(List.of(command));
        for (Path each : recordings) {
            words.add(each.toString());
        }
        words.addAll(List.of(options));
        return words;
    }

    private JFileChooser folderChooser(String title, String name) {
        JFileChooser chooser = chooser(title, name);
        chooser.setFileSelectionMode(JFileChooser.DIRECTORIES_ONLY);
        return chooser;
    }

    private Optional<Path> folder(JFileChooser chooser) {
        if (chooser.showDialog(frame, "Write there") != JFileChooser.APPROVE_OPTION) {
            return Optional.empty();
        }
        remember(chooser.getSelectedFile().toPath());
        return Optional.of(chooser.getSelectedFile().toPath());
    }

    private JFileChooser chooser(String title, String name) {
        JFileChooser chooser = new FileChooser(state.get("output", state.get("folder", "")));
        chooser.setName(name);
        chooser.setDialogTitle(title);
        return chooser;
    }

    private void remember(Path folder) {
        state.put("output", folder.toString());
    }

    /** Writes {@code text} to {@code file}; {@code then} hears of it as of a call. */
    void write(Path file, String text, BiConsumer<String, List<String>> then) {
        Background.run(
                () -> Files.writeString(file, text),
                written -> then.accept(done(written), List.of()),
                why -> then.accept("Not done", List.of(Failures.sentence(file.toString(), why))));
    }

    private boolean replaces(Path file) {
        return JOptionPane.showConfirmDialog(
                        frame, file + " exists already. Replace it?", "A report", JOptionPane.YES_NO_OPTION)
                == JOptionPane.YES_OPTION;
    }

    /** Where what was asked for is found: its name first, since a long folder may not be seen to its end. */
    private static String done(Path file) {
        Path whole = file.toAbsolutePath();
        return whole.getParent() == null
                ? "Done: " + whole
                : "Done: " + whole.getFileName() + " in " + whole.getParent();
    }

    /** Where {@code words} have something written. */
    private static Optional<Path> place(List<String> words) {
        for (int i = 0; i + 1 < words.size(); i++) {
            if (PLACES.contains(words.get(i))) {
                return Optional.of(Path.of(words.get(i + 1)));
            }
        }
        return Optional.empty();
    }

    /** Calls {@code words}; {@code then} hears a sentence and the problems, after that {@code results} all that was said. */
    SwingWorker<?, ?> call(List<String> words, Consumer<Commands.Told> results, BiConsumer<String, List<String>> then) {
        SwingWorker<Commands.Told, Void> work = new SwingWorker<>() {
            @Override
            protected Commands.Told doInBackground() {
                return commands.run(words);
            }

            @Override
            protected void done() {
                try {
                    Commands.Told told = get();
                    then.accept(
                            told.exitCode() == 0
                                    ? place(words).map(Output::done).orElse("Done")
                                    : "Not everything was done",
                            told.err().lines().toList());
                    results.accept(told);
                } catch (CancellationException e) {
                    then.accept("Stopped", List.of());
                } catch (InterruptedException e) {
                    Thread.currentThread().interrupt();
                } catch (ExecutionException e) {
                    then.accept("Not done", List.of(Failures.sentence(words.get(0), e.getCause())));
                }
            }
        };
        work.execute();
        return work;
    }
}
