package org.holdtrace.desk.work;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.AtomicMoveNotSupportedException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;

/** Writes a file whole beside the old one and puts it in its place, so that a crash leaves either the old or the new. */
final class SafeFile {
    private SafeFile() {}

    /** Makes {@code text} what stands in {@code file}. */
    static void write(Path file, String text) throws IOException {
        Path folder = file.toAbsolutePath().getParent();
        Path fresh = Files.createTempFile(folder, "." + file.getFileName(), ".new");
        try {
            try (FileChannel out = FileChannel.open(fresh, StandardOpenOption.WRITE)) {
                ByteBuffer bytes = ByteBuffer.wrap(text.getBytes(StandardCharsets.UTF_8));
                while (bytes.hasRemaining()) {
                    out.write(bytes);
                }
                out.force(true);
            }
            try {
                Files.move(fresh, file, StandardCopyOption.ATOMIC_MOVE, StandardCopyOption.REPLACE_EXISTING);
            } catch (AtomicMoveNotSupportedException e) {
                Files.move(fresh, file, StandardCopyOption.REPLACE_EXISTING);
            }
        } finally {
            Files.deleteIfExists(fresh);
        }
    }
}
