package org.holdtrace.desk.work;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HexFormat;
import java.util.Optional;
import org.holdtrace.library.InputFile;
import org.holdtrace.library.WorkNotes;
import org.holdtrace.session.Sha256;

/**
 * What was changed about recordings in folders that cannot be written to, kept in the desk's own folder: for each
 * recording a folder of its own with the files that ought to stand beside it, and a note of where that is.
 */
public final class Drafts {
    private static final String WHERE = "where.txt";
    private static final int NAME_BYTES = 8;

    private final Path folder;

    /** Drafts in {@code folder}, which need not exist. */
    public Drafts(Path folder) {
        this.folder = folder;
    }

    /** Where the draft of {@code input} is, or would be: its folder's name tells recordings of one name apart. */
    Path folderOf(InputFile input) {
        Path recording = input.path().toAbsolutePath().normalize();
        byte[] hash = Sha256.begin().digest(recording.toString().getBytes(StandardCharsets.UTF_8));
        return folder.resolve(InputFile.stemOf(recording) + "-" + HexFormat.of().formatHex(hash, 0, NAME_BYTES));
    }

    /** What was kept of {@code input}, where something was. */
    Optional<Beside> read(InputFile input) throws IOException {
        Path draft = folderOf(input);
        return Files.isDirectory(draft)
                ? Optional.of(new Beside(
                        Beside.textOf(draft.resolve(input.setupBeside().getFileName())),
                        Beside.textOf(draft.resolve(WorkNotes.fileBeside(input).getFileName()))))
                : Optional.empty();
    }

    /** Keeps {@code beside} and returns the folder it is in. */
    Path keep(InputFile input, Beside beside) throws IOException {
        Path draft = Files.createDirectories(folderOf(input));
        SafeFile.write(draft.resolve(WHERE), input.path().toAbsolutePath() + System.lineSeparator());
        SafeFile.write(draft.resolve(input.setupBeside().getFileName()), beside.setup());
        SafeFile.write(draft.resolve(WorkNotes.fileBeside(input).getFileName()), beside.notes());
        return draft;
    }

    /** What was kept of {@code input} stands beside it now. */
    void forget(InputFile input) throws IOException {
        Path draft = folderOf(input);
        if (Files.isDirectory(draft)) {
            Files.deleteIfExists(draft.resolve(input.setupBeside().getFileName()));
            Files.deleteIfExists(draft.resolve(WorkNotes.fileBeside(input).getFileName()));
            Files.deleteIfExists(draft.resolve(WHERE));
            Files.deleteIfExists(draft);
        }
    }
}
