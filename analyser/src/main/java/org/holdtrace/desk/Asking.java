package org.holdtrace.desk;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;
import javax.swing.JFileChooser;
import javax.swing.JFrame;
import javax.swing.JOptionPane;
import org.holdtrace.desk.look.Dialogs;
import org.holdtrace.desk.work.Background;
import org.holdtrace.desk.work.Changes;
import org.holdtrace.desk.work.DeskState;
import org.holdtrace.desk.work.OpenRecording;
import org.holdtrace.estimate.EstimateOptions;
import org.holdtrace.estimate.HoldTestResult;
import org.holdtrace.library.Conditions;
import org.holdtrace.library.Failures;
import org.holdtrace.library.InputFile;
import org.holdtrace.library.LineCheck;
import org.holdtrace.quantity.QuantityException;

/**
 * What is asked of all results beyond the setups, as the commands' {@code --at} and {@code --line-check} do: the leak at
 * another pressure and oil temperature, and a hold test of the test line alone whose leak is taken off. Remembered from
 * one day to the next. On the event thread.
 */
final class Asking {
    private static final String AT = "at";
    private static final String LINE_CHECK = "line check";

    private final JFrame frame;
    private final DeskState state;
    private final Changes changes;
    private final Consumer<String> trouble;
    private Optional<HoldTestResult> lineCheck = Optional.empty();

    /** @param trouble told in a sentence what is not as it was asked for */
    Asking(JFrame frame, DeskState state, Changes changes, Consumer<String> trouble) {
        this.frame = frame;
        this.state = state;
        this.changes = changes;
        this.trouble = trouble;
    }

    /** Asks again for what was asked for last. */
    void restore() {
        apply();
        String file = state.get(LINE_CHECK, "");
        if (!file.isEmpty()) {
            read(Path.of(file));
        }
    }

    /** What the commands must be given to find the same. */
    List<String> words() {
        List<String> words = new ArrayList<>();
        if (!state.get(AT, "").isEmpty()) {
            words.addAll(List.of("--at", state.get(AT, "")));
        }
        if (lineCheck.isPresent()) {
            words.addAll(List.of("--line-check", state.get(LINE_CHECK, "")));
        }
        return words;
    }

    /** Lets somebody write the conditions leaks are stated at. */
    void askConditions() {
        String text = state.get(AT, "");
        while (true) {
            Optional<String> written = Dialogs.askText(
                    frame,
                    "State leaks at",
                    "State every leak at a pressure, an oil temperature or both, as in \"140 bar, 50 degC\".\n"
                            + "Empty: at what each setup says.",
                    text);
            if (written.isEmpty()) {
                return;
            }
            text = written.get();
            try {
                if (!text.isBlank()) {
                    Conditions.parse(text);
                }
                state.put(AT, text.strip());
                apply();
                return;
            } catch (QuantityException e) {
                JOptionPane.showMessageDialog(frame, e.getMessage(), "State leaks at", JOptionPane.WARNING_MESSAGE);
            }
        }
    }

    /** Lets somebody choose the hold test of the test line alone. */
    void askLineCheck() {
        JFileChooser chooser =
                Choosers.open(state, "choose line check", "A hold test of the test line alone, adapter blanked off");
        if (chooser.showDialog(frame, "Take it off") == JFileChooser.APPROVE_OPTION) {
            read(chooser.getSelectedFile().toPath());
        }
    }

    /** No line check is taken off any more. */
    void withoutLineCheck() {
        lineCheck = Optional.empty();
        state.put(LINE_CHECK, "");
        apply();
    }

    private void read(Path file) {
        InputFile input = new InputFile(file, InputFile.stemOf(file));
        Background.run(
                () -> LineCheck.of(
                        file.toString(),
                        OpenRecording.read(input, EstimateOptions.none()).results()),
                found -> {
                    lineCheck = Optional.of(found);
                    state.put(LINE_CHECK, file.toString());
                    apply();
                },
                why -> {
                    trouble.accept("No line check is taken off: " + Failures.sentence(file.toString(), why));
                    withoutLineCheck();
                });
    }

    private void apply() {
        Conditions conditions = Conditions.NONE;
        try {
            String text = state.get(AT, "");
            conditions = text.isEmpty() ? Conditions.NONE : Conditions.parse(text);
        } catch (QuantityException e) {
            state.put(AT, "");
        }
        changes.ask(new EstimateOptions(conditions.pressurePa(), conditions.temperatureK(), lineCheck));
    }
}
