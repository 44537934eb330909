package org.holdtrace.desk;

import java.io.File;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CancellationException;
import java.util.concurrent.ExecutionException;
import java.util.function.BiConsumer;
import java.util.function.Consumer;
import javax.swing.JFileChooser;
import javax.swing.JFrame;
import javax.swing.JOptionPane;
import javax.swing.SwingWorker;
import org.holdtrace.desk.work.Commands;
import org.holdtrace.desk.work.DeskState;
import org.holdtrace.library.Failures;

/** Reports, exports and pictures: asks where to, and has the command of that name write them. On the event thread. */
final class Output {
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
        return Optional.of(words("report", recordings, "--out", file.toString(), "--units", units));
    }

    /** Words that call for samples and results of {@code recordings}. */
    Optional<List<String>> export(List<Path> recordings) {
        return folder("Samples and results into", "choose export")
                .map(each -> words("export", recordings, "--out", each.toString(), "--replace"));
    }

    /** Words that call for a picture of each hold test of {@code recordings}. */
    Optional<List<String>> pictures(List<Path> recordings) {
        return folder("Pictures (.svg) into", "choose pictures")
                .map(each -> words("analyse", recordings, "--charts", each.toString()));
    }

    /** Words that call for the judgement of a case that somebody chooses. */
    Optional<List<String>> judge() {
        JFileChooser chooser = new JFileChooser(state.get("folder", ""));
        chooser.setName("choose case");
        chooser.setDialogTitle("A case (.case.json)");
        return chooser.showDialog(frame, "Judge it") == JFileChooser.APPROVE_OPTION
                ? Optional.of(List.of("case", chooser.getSelectedFile().getPath()))
                : Optional.empty();
    }

    private static List<String> words(String command, List<Path> recordings, String... options) {
        List<String> words = new ArrayList<>(List.of(command));
        for (Path each : recordings) {
            words.add(each.toString());
        }
        words.addAll(List.of(options));
        return words;
    }

    private Optional<Path> folder(String title, String name) {
        JFileChooser chooser = chooser(title, name);
        chooser.setFileSelectionMode(JFileChooser.DIRECTORIES_ONLY);
        if (chooser.showDialog(frame, "Write there") != JFileChooser.APPROVE_OPTION) {
            return Optional.empty();
        }
        remember(chooser.getSelectedFile().toPath());
        return Optional.of(chooser.getSelectedFile().toPath());
    }

    private JFileChooser chooser(String title, String name) {
        JFileChooser chooser = new JFileChooser(state.get("output", state.get("folder", "")));
        chooser.setName(name);
        chooser.setDialogTitle(title);
        return chooser;
    }

    private void remember(Path folder) {
        state.put("output", folder.toString());
    }

    private boolean replaces(Path file) {
        return JOptionPane.showConfirmDialog(
                        frame, file + " exists already. Replace it?", "A report", JOptionPane.YES_NO_OPTION)
                == JOptionPane.YES_OPTION;
    }

    /** Calls {@code words}; {@code results} hears what was found, {@code then} a sentence and the problems. */
    SwingWorker<?, ?> call(List<String> words, Consumer<String> results, BiConsumer<String, List<String>> then) {
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
                            told.exitCode() == 0 ? "Done" : "Not everything was done",
                            told.err().lines().toList());
                    if (!told.out().isBlank()) {
                        results.accept(told.out());
                    }
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
