package org.holdtrace.benchmark;

import java.io.Closeable;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;

/**
 * What the kernel has booked for one thread: how long it ran, and how long it could have run and waited for a processor
 * (Linux, Documentation/scheduler/sched-stats.rst, "/proc/&lt;pid&gt;/schedstat"). A wait is booked when it is over. Where the
 * host tells a virtual machine what it took from it, that is in neither while the thread ran, and in the wait where it
 * waited.
 */
final class Schedstat implements Closeable {
    private final FileChannel file;
    private final ByteBuffer bytes = ByteBuffer.allocate(80);
    private long ranNs;
    private long waitedNs;

    private Schedstat(Path path) throws IOException {
        file = FileChannel.open(path, StandardOpenOption.READ);
        read();
    }

    /** Of the calling thread, which alone may read it. */
    static Schedstat ofThisThread() throws IOException {
        // The name is resolved when it is opened, so the file stays that thread's.
        return new Schedstat(Path.of("/proc/thread-self/schedstat"));
    }

    /** Of the thread called {@code name} in process {@code pid}. */
    static Schedstat of(long pid, String name) throws IOException {
        try (DirectoryStream<Path> threads = Files.newDirectoryStream(Path.of("/proc", String.valueOf(pid), "task"))) {
            for (Path thread : threads) {
                if (Files.readString(thread.resolve("comm")).trim().equals(name)) {
                    return new Schedstat(thread.resolve("schedstat"));
                }
            }
        }
        throw new IOException("process " + pid + " has no thread " + name);
    }

    /** Looks anew. */
    void read() throws IOException {
        bytes.clear();
        file.read(bytes, 0);
        bytes.flip();
        ranNs = number();
        waitedNs = number();
    }

    private long number() throws IOException {
        long number = 0;
        int digits = 0;
        while (bytes.hasRemaining()) {
            int digit = bytes.get() - '0';
            if (digit < 0 || digit > 9) {
                break;
            }
            number = 10 * number + digit;
            digits++;
        }
        if (digits == 0) {
            throw new IOException(
                    "no number where the kernel should have one for a thread: was CONFIG_SCHED_INFO off?");
        }
        return number;
    }

    /** How long it ran until the last look, ns. */
    long ranNs() {
        return ranNs;
    }

    /** How long it waited for a processor until the last look, ns. */
    long waitedNs() {
        return waitedNs;
    }

    @Override
    public void close() throws IOException {
        file.close();
    }
}
