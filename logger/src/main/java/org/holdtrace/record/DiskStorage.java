package org.holdtrace.record;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.channels.WritableByteChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;

/** A folder on a disk. */
public final class DiskStorage implements Storage {
    private final Path folder;

    public DiskStorage(Path folder) {
        this.folder = folder;
    }

    @Override
    public WritableByteChannel create(String name) throws IOException {
        return FileChannel.open(folder.resolve(name), StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE);
    }

    @Override
    public void force(WritableByteChannel channel, boolean name) throws IOException {
        ((FileChannel) channel).force(name);
        if (name) {
            forceFolder(folder);
        }
    }

    @Override
    public void discard(String name) throws IOException {
        Files.deleteIfExists(folder.resolve(name));
    }

    @Override
    public long usableBytes() throws IOException {
        return Files.getFileStore(folder).getUsableSpace();
    }

    /** The name of a new file must reach the disk too. Not every system can open a folder; then it sees to it itself. */
    static void forceFolder(Path folder) {
        try (FileChannel channel = FileChannel.open(folder, StandardOpenOption.READ)) {
            channel.force(true);
        } catch (IOException e) {
            // The file itself is safe; only its name may be lost, and only if power fails within seconds of the start.
        }
    }
}
