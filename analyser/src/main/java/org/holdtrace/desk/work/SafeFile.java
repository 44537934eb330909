package org.holdtrace.desk.work;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.AtomicMoveNotSupportedException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.FileSystemException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.PosixFileAttributeView;

/** Writes a file whole beside the old one and puts it in its place, so that a crash leaves either the old or the new. */
final class SafeFile {
    /** Nobody writes a few lines for so long: what is older was left by a crash, ms. */
    private static final long LEFT_BEHIND_MS = 10_000;

    private static final int TRIES = 8;
    private static final long BETWEEN_TRIES_MS = 60;

    private SafeFile() {}

    /**
     * Makes {@code text} what stands in {@code file}. Where another program has the file open at the moment, which keeps
     * Windows from replacing it, waits for up to half a second: virus scanners and indexers look at every new file.
     *
     * @throws IOException if it cannot be written; {@code file} is then what it was
     */
    static void write(Path file, String text) throws IOException {
        Path folder = file.toAbsolutePath().getParent();
        Path fresh = folder.resolve("." + file.getFileName() + ".new");
        FileChannel created = create(fresh);
        try {
            try (FileChannel out = created) {
                ByteBuffer bytes = ByteBuffer.wrap(text.getBytes(StandardCharsets.UTF_8));
                while (bytes.hasRemaining()) {
                    out.write(bytes);
                }
                out.force(true);
            }
            readableAsBefore(file, fresh);
            replace(fresh, file);
        } finally {
            Files.deleteIfExists(fresh);
        }
        forceFolder(folder);
    }

    /** A new file that nobody else writes to: one that is there already is another program's, or left by a crash. */
    private static FileChannel create(Path fresh) throws IOException {
        for (int tried = 1; ; tried++) {
            try {
                return FileChannel.open(fresh, StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE);
            } catch (FileAlreadyExistsException e) {
                if (isLeftBehind(fresh)) {
                    Files.deleteIfExists(fresh);
                } else if (tried == TRIES) {
                    throw e;
                } else {
                    pause(e);
                }
            }
        }
    }

    private static boolean isLeftBehind(Path fresh) throws IOException {
        try {
            return System.currentTimeMillis() - Files.getLastModifiedTime(fresh).toMillis() > LEFT_BEHIND_MS;
        } catch (NoSuchFileException e) {
            return true; // gone in this moment
        }
    }

    /** Whoever could read the old one can read the new one. */
    private static void readableAsBefore(Path file, Path fresh) throws IOException {
        PosixFileAttributeView before = Files.getFileAttributeView(file, PosixFileAttributeView.class);
        if (before != null && Files.exists(file)) {
            Files.setPosixFilePermissions(fresh, before.readAttributes().permissions());
        }
    }

    private static void replace(Path fresh, Path file) throws IOException {
        for (int tried = 1; ; tried++) {
            try {
                Files.move(fresh, file, StandardCopyOption.ATOMIC_MOVE, StandardCopyOption.REPLACE_EXISTING);
                return;
            } catch (AtomicMoveNotSupportedException e) {
                Files.move(fresh, file, StandardCopyOption.REPLACE_EXISTING);
                return;
            } catch (FileSystemException e) {
                if (tried == TRIES) {
                    throw e;
                }
                pause(e);
            }
        }
    }

    private static void pause(IOException why) throws IOException {
        try {
            Thread.sleep(BETWEEN_TRIES_MS);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw why;
        }
    }

    /** So that a power cut does not bring the old one back; where a folder cannot be forced, the system sees to it. */
    @SuppressWarnings("EmptyCatch") // Windows opens no folder as a file
    private static void forceFolder(Path folder) {
        try (FileChannel there = FileChannel.open(folder, StandardOpenOption.READ)) {
            there.force(true);
        } catch (IOException e) {
            // what was written is there, and this was all that could be done about it
        }
    }
}
