package org.holdtrace.record;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.ClosedChannelException;
import java.nio.channels.WritableByteChannel;
import java.nio.file.FileAlreadyExistsException;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.random.RandomGenerator;

/**
 * A disk in memory that does what disks do: it tears a write, is full, read-only, fails to force and then forgets what
 * was not forced (as Linux does), and loses its power.
 */
final class FaultyStorage implements Storage {
    /** A file: what was written, and how much of it is on the disk for certain. */
    final class File implements WritableByteChannel {
        private final String name;
        private final ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        private int forced;
        private boolean open = true;

        File(String name) {
            this.name = name;
        }

        @Override
        public int write(ByteBuffer source) throws IOException {
            if (!open) {
                throw new ClosedChannelException();
            }
            int length = source.remaining();
            if (writes++ == failingWrite || unwritable.equals(name)) {
                put(source, tear == 0 ? 0 : (int) (tear * length));
                throw new IOException("Input/output error");
            }
            if (readOnly) {
                throw new IOException("Read-only file system");
            }
            if (capacity < length) {
                int part = (int) capacity;
                put(source, part);
                capacity -= part;
                if (part > 0) {
                    return part; // a disk takes what it can, and says so
                }
                throw new IOException("No space left on device");
            }
            capacity -= length;
            put(source, length);
            return length;
        }

        private void put(ByteBuffer source, int length) {
            byte[] part = new byte[length];
            source.get(part);
            bytes.writeBytes(part);
        }

        byte[] written() {
            return bytes.toByteArray();
        }

        /** What is left after the power failed: all that was forced, and some of the rest. */
        byte[] afterPowerCut(RandomGenerator random) {
            byte[] all = written();
            return Arrays.copyOf(all, forced + random.nextInt(all.length - forced + 1));
        }

        @Override
        public boolean isOpen() {
            return open;
        }

        @Override
        public void close() {
            open = false;
        }
    }

    final Map<String, File> files = new LinkedHashMap<>();
    int writes;
    int forces;
    int failingWrite = -1;
    int failingForce = -1;
    double tear;
    boolean readOnly;
    String unwritable = "";
    long capacity = Long.MAX_VALUE;

    @Override
    public WritableByteChannel create(String name) throws IOException {
        if (readOnly) {
            throw new IOException("Read-only file system");
        }
        if (files.containsKey(name)) {
            throw new FileAlreadyExistsException(name);
        }
        File file = new File(name);
        files.put(name, file);
        return file;
    }

    @Override
    public void force(WritableByteChannel channel, boolean name) throws IOException {
        File file = (File) channel;
        if (forces++ == failingForce) {
            byte[] kept = Arrays.copyOf(file.written(), file.forced);
            file.bytes.reset();
            file.bytes.writeBytes(kept);
            throw new IOException("Input/output error");
        }
        file.forced = file.bytes.size();
    }

    @Override
    public void discard(String name) {
        files.remove(name);
    }

    @Override
    public long usableBytes() {
        return capacity;
    }
}
