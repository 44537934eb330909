package org.holdtrace.command;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.holdtrace.estimate.EstimateOptions;
import org.holdtrace.estimate.HoldTestResult;
import org.holdtrace.library.Conditions;
import org.holdtrace.library.Estimated;
import org.holdtrace.library.Failures;
import org.holdtrace.library.InputFile;
import org.holdtrace.library.LineCheck;
import org.holdtrace.library.Recording;
import org.holdtrace.library.WorkNotes;
import org.holdtrace.quantity.QuantityException;
import org.holdtrace.session.InputException;
import org.holdtrace.session.TestSetup;
import org.holdtrace.trace.HoldTest;

/**
 * The options that say how hold tests are to be estimated, the same for every command that estimates.
 *
 * @param setupForAll the setup given for all inputs, which wins over those beside and inside them
 * @param options what is asked beyond the setup
 */
record EstimateArguments(Optional<TestSetup> setupForAll, EstimateOptions options) {
    static final String SETUP = "--setup";
    static final String LINE_CHECK = "--line-check";
    private static final String AT = "--at";

    /** No setup for all, nothing beyond the setups. */
    static final EstimateArguments NOTHING = new EstimateArguments(Optional.empty(), EstimateOptions.none());

    static final List<Option> OPTIONS = List.of(
            Option.valued(SETUP, "FILE", "use this setup for all inputs, in place of the one beside or inside each"),
            Option.valued(
                    LINE_CHECK,
                    "FILE",
                    "a hold test of the test line alone, adapter blanked off: its leak and",
                    "compliance are taken off"),
            Option.valued(
                    AT,
                    "CONDITIONS",
                    "state the leak at another pressure, oil temperature or both, as in",
                    "\"140 bar, 50 degC\""));

    /**
     * Reads the setup and the line check the call names, if any.
     *
     * @throws UsageException if one of them cannot be opened or the conditions cannot be understood
     * @throws InputException if one of them is there but what is in it cannot be used
     */
    static EstimateArguments from(Arguments arguments, Steps steps) throws UsageException, InputException {
        Optional<TestSetup> setup = Optional.empty();
        String setupFile = arguments.value(SETUP);
        if (setupFile != null) {
            try {
                setup = Optional.of(steps.readSetup(Inputs.path(setupFile)));
            } catch (InputException e) {
                throw e;
            } catch (IOException e) {
                throw new UsageException(SETUP + ": " + Failures.sentence(setupFile, e));
            }
        }
        String at = arguments.value(AT);
        Conditions conditions = at == null ? Conditions.NONE : conditions(at);
        EstimateOptions options =
                new EstimateOptions(conditions.pressurePa(), conditions.temperatureK(), lineCheck(arguments, steps));
        return new EstimateArguments(setup, options);
    }

    /**
     * Reads an input and estimates its hold tests, with the setup for all, else the one beside it, else the one in it, and
     * boundaries where somebody moved them.
     */
    Estimated estimate(InputFile input, Steps steps) throws IOException {
        Recording recording = steps.read(input);
        TestSetup setup = setupForAll.isPresent() ? setupForAll.get() : steps.setupOf(input, recording);
        WorkNotes notes = WorkNotes.beside(input);
        List<HoldTestResult> results = new ArrayList<>();
        for (HoldTest test : notes.applied(recording.trace(), steps.segment(recording.trace()))) {
            results.add(notes.noted(steps.estimate(recording.trace(), test, setup, options)));
        }
        return new Estimated(recording, setup, results);
    }

    private static Conditions conditions(String text) throws UsageException {
        try {
            return Conditions.parse(text);
        } catch (QuantityException e) {
            throw new UsageException(AT + ": " + e.getMessage());
        }
    }

    private static Optional<HoldTestResult> lineCheck(Arguments arguments, Steps steps)
            throws UsageException, InputException {
        String file = arguments.value(LINE_CHECK);
        if (file == null) {
            return Optional.empty();
        }
        try {
            InputFile input = new InputFile(Inputs.path(file), file);
            // The line check's own setup counts here: a setup for all describes the component, not the blank.
            return Optional.of(LineCheck.of(file, NOTHING.estimate(input, steps).results()));
        } catch (InputException e) {
            throw e;
        } catch (IOException e) {
            throw new UsageException(LINE_CHECK + ": " + Failures.sentence(file, e));
        }
    }
}
