package org.holdtrace.library;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.holdtrace.session.CsvPlan;
import org.holdtrace.session.CsvTraceReader;
import org.holdtrace.session.HoldFileReader;
import org.holdtrace.session.Loss;
import org.holdtrace.session.Session;
import org.holdtrace.session.SetupReader;
import org.holdtrace.session.TestSetup;
import org.holdtrace.trace.Trace;

/** Reads recordings and the setups beside them. */
public final class Recordings {
    private Recordings() {}

    /**
     * Reads a session or a trace.
     *
     * @throws IOException if it cannot be read, an {@link org.holdtrace.quantity.InputException} if what is in it
     *     cannot be understood
     */
    public static Recording read(InputFile input) throws IOException {
        return input.isSession() ? session(input) : trace(input);
    }

    /** The setup that counts for {@code input} unless another is asked for: the one beside it, else the one recorded in it. */
    public static TestSetup setupOf(InputFile input, Recording recording) throws IOException {
        Path beside = input.setupBeside();
        return Files.exists(beside) ? SetupReader.read(beside) : recording.setup();
    }

    private static Recording session(InputFile input) throws IOException {
        Session session = HoldFileReader.read(input.path());
        List<String> notes = new ArrayList<>();
        for (Loss loss : session.losses()) {
            notes.add(loss.describe());
        }
        notes.addAll(session.remarks());
        Trace trace = session.trace();
        addTo(notes, PressureSign.look(input.path().toString(), trace));
        return new Recording(trace, session.setup(), Optional.of(session.header()), notes);
    }

    private static Recording trace(InputFile input) throws IOException {
        Optional<CsvPlan> columns = WorkNotes.beside(input).columns();
        CsvTraceReader.Reading reading = columns.isPresent()
                ? CsvTraceReader.readAll(input.path(), columns.get())
                : CsvTraceReader.readAll(input.path());
        List<String> notes = new ArrayList<>();
        for (String column : reading.ignoredColumns()) {
            notes.add(
                    column.isEmpty()
                            ? "a column was not used, as somebody said"
                            : "column \"" + column + "\" was not used");
        }
        addTo(notes, PressureSign.look(input.path().toString(), reading.trace()));
        return new Recording(reading.trace(), TestSetup.unknown(), Optional.empty(), notes);
    }

    private static void addTo(List<String> notes, String note) {
        if (!note.isEmpty()) {
            notes.add(note);
        }
    }
}
