package org.holdtrace.firmware;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.channels.OverlappingFileLockException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;

/** The folder of the sessions, held by one program at a time: two that write there would mend each other's sessions. */
final class DataFolder implements AutoCloseable {
    private final Path folder;
    private final FileChannel channel;

    private DataFolder(Path folder, FileChannel channel) {
        this.folder = folder;
        this.channel = channel;
    }

    /** The folder. */
    Path path() {
        return folder;
    }

    /**
     * Takes the folder, which is made where it is not there.
     *
     * @throws IOException where another program holds it, or it cannot be had
     */
    static DataFolder take(Path folder) throws IOException {
        Files.createDirectories(folder);
        FileChannel channel =
                FileChannel.open(folder.resolve(".lock"), StandardOpenOption.CREATE, StandardOpenOption.WRITE);
        FileLock lock = null;
        try {
            lock = channel.tryLock();
        } catch (OverlappingFileLockException e) {
            // Held by this very process: as good as by another.
        } finally {
            if (lock == null) {
                channel.close();
            }
        }
        if (lock == null) {
            throw new IOException("a logger is at work in " + folder + ": end it first");
        }
        return new DataFolder(folder, channel);
    }

    /** Gives it back; the lock goes with the file. */
    @Override
    public void close() throws IOException {
        channel.close();
    }
}
