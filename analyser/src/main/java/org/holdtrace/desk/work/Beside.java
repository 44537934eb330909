package org.holdtrace.desk.work;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import org.holdtrace.library.InputFile;
import org.holdtrace.library.Recording;
import org.holdtrace.library.WorkNotes;
import org.holdtrace.session.SetupReader;
import org.holdtrace.session.SetupSheet;

/**
 * What stood in the files beside a recording when they were read or written last, so that a change by somebody else is
 * seen before it is written over.
 *
 * @param setup text of {@code NAME.setup.json}, empty where there is none
 * @param notes text of {@code NAME.work.json}, empty where there is none
 */
public record Beside(String setup, String notes) {
    /** Reads both files. */
    static Beside read(InputFile input) throws IOException {
        return new Beside(textOf(input.setupBeside()), textOf(WorkNotes.fileBeside(input)));
    }

    /** What stands in {@code file}, empty where there is none. */
    static String textOf(Path file) throws IOException {
        return Files.exists(file) ? new String(Files.readAllBytes(file), StandardCharsets.UTF_8) : "";
    }

    /**
     * What they say of {@code recording}.
     *
     * @throws IOException an {@link org.holdtrace.session.InputException} where one of them cannot be understood
     */
    Described described(InputFile input, Recording recording) throws IOException {
        SetupSheet sheet;
        if (setup.isEmpty()) {
            sheet = SetupSheet.of(recording.setup());
        } else {
            String name = input.setupBeside().toString();
            byte[] utf8 = setup.getBytes(StandardCharsets.UTF_8);
            SetupReader.parse(utf8, name);
            sheet = SetupSheet.parse(utf8, name);
        }
        return new Described(
                sheet,
                notes.isEmpty()
                        ? WorkNotes.NONE
                        : WorkNotes.parse(
                                notes.getBytes(StandardCharsets.UTF_8),
                                WorkNotes.fileBeside(input).toString()));
    }

    /** What should stand there for {@code wanted}; nothing where that is what the recording itself says. */
    static Beside of(Described wanted, Recording recording, Beside first) {
        boolean asRecorded = first.setup().isEmpty() && wanted.sheet().equals(SetupSheet.of(recording.setup()));
        return new Beside(
                asRecorded ? "" : new String(wanted.sheet().json(), StandardCharsets.UTF_8),
                wanted.notes().equals(WorkNotes.NONE)
                        ? ""
                        : new String(wanted.notes().json(), StandardCharsets.UTF_8));
    }
}
