package org.holdtrace.record;

import java.io.BufferedInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.DirectoryIteratorException;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.holdtrace.session.FrameSplitter;
import org.holdtrace.session.FrameType;
import org.holdtrace.session.HoldFileWriter;
import org.holdtrace.session.InputException;
import org.holdtrace.session.Loss;
import org.holdtrace.session.SessionEvent;
import org.holdtrace.session.SessionScan;

/**
 * Looks at the start for sessions that were cut short and closes them: behind what is there it writes a note and an end.
 * Nothing that is there is changed or taken away. A file it does not understand is left as it is, and told.
 */
public final class Mender {
    private static final int TAIL = 1 << 16;

    private static final String WHY = "cut short; closed when the logger started again";

    /** What was done about a session. */
    public enum Deed {
        /** It was closed. */
        CLOSED,
        /** It was left as it is. */
        LEFT
    }

    /**
     * What was found.
     *
     * @param file name of the file
     * @param deed what was done
     * @param text what was found, in words
     */
    public record Finding(String file, Deed deed, String text) {}

    private Mender() {}

    /**
     * Looks at every session in {@code folder} that has no end, and closes it where that is safe. No other program may
     * write there meanwhile.
     *
     * @return what was found, in the order of recording; nothing of sessions that are whole
     */
    public static List<Finding> mend(Path folder) throws IOException {
        List<Path> sessions = new ArrayList<>();
        try (DirectoryStream<Path> files = Files.newDirectoryStream(folder, "*" + SessionNames.SUFFIX)) {
            files.forEach(sessions::add);
        } catch (DirectoryIteratorException e) {
            throw e.getCause();
        }
        sessions.sort((a, b) ->
                SessionNames.compare(a.getFileName().toString(), b.getFileName().toString()));
        List<Finding> findings = new ArrayList<>();
        for (Path session : sessions) {
            Finding finding = mendOne(session);
            if (finding != null) {
                findings.add(finding);
            }
        }
        return findings;
    }

    /** Looks at one session; null where it is whole. */
    static Finding mendOne(Path file) {
        String name = file.getFileName().toString();
        try {
            if (!Files.isRegularFile(file, LinkOption.NOFOLLOW_LINKS)) {
                return new Finding(name, Deed.LEFT, name + " is no file of its own; left as it is");
            }
            if (endsOnPurpose(file)) {
                return null;
            }
            long length = Files.size(file);
            if (length == 0) {
                return new Finding(name, Deed.LEFT, name + " is empty: recording was cut short at its very beginning");
            }
            SessionScan scan;
            try (InputStream in = new BufferedInputStream(Files.newInputStream(file))) {
                scan = SessionScan.of(in, name);
            }
            if (scan.end().isPresent()) {
                return null; // ended on purpose; something else stands behind the end
            }
            try {
                close(file, length, scan);
            } catch (IOException e) {
                return new Finding(
                        name,
                        Deed.LEFT,
                        describe(name, scan) + "; it could not be closed: "
                                + Problem.of(e, "writing").text());
            }
            return new Finding(name, Deed.CLOSED, describe(name, scan) + "; closed");
        } catch (InputException e) {
            return new Finding(name, Deed.LEFT, e.getMessage() + "; left as it is");
        } catch (IOException | RuntimeException e) {
            return new Finding(name, Deed.LEFT, name + " cannot be read: " + e + "; left as it is");
        }
    }

    /** In words what is there. */
    private static String describe(String name, SessionScan scan) {
        long samples = 0;
        for (long count : scan.samples().values()) {
            samples += count;
        }
        StringBuilder text = new StringBuilder(name).append(" was cut short");
        if (scan.lastNs().isPresent()) {
            text.append(String.format(
                    Locale.ROOT,
                    " after %.3f s; %d samples are there",
                    scan.lastNs().getAsLong() / 1e9,
                    samples));
        } else {
            text.append(" before its first sample was on the disk");
        }
        for (Loss loss : scan.losses()) {
            text.append("; ").append(loss.describe());
        }
        return text.toString();
    }

    /** Whether the last frame is an end: enough to know of a session that is whole, however long it is. */
    private static boolean endsOnPurpose(Path file) throws IOException {
        LastType last = new LastType();
        FrameSplitter splitter = new FrameSplitter(last);
        try (FileChannel channel = FileChannel.open(file, StandardOpenOption.READ)) {
            ByteBuffer tail = ByteBuffer.allocate(TAIL);
            long at = Math.max(0, channel.size() - TAIL);
            while (tail.hasRemaining()) {
                int n = channel.read(tail, at + tail.position());
                if (n < 0) {
                    break;
                }
            }
            splitter.accept(tail.array(), 0, tail.position());
        }
        return last.type == FrameType.END.code();
    }

    private static final class LastType implements FrameSplitter.Handler {
        private int type = -1;

        @Override
        public void frame(int code, long sequence, byte[] frame, int offset, int length, long first, long end) {
            type = code;
        }

        @Override
        public void damage(long firstByte, long endByte) {
            type = -1;
        }
    }

    private static void close(Path file, long length, SessionScan scan) throws IOException {
        try (FileChannel channel = FileChannel.open(file, StandardOpenOption.WRITE)) {
            if (channel.size() != length) {
                throw new IOException("it grew meanwhile: another program writes it");
            }
            channel.position(length);
            HoldFileWriter writer =
                    HoldFileWriter.resume(channel, scan.header(), scan.nextSequence(), scan.samples(), scan.openEnd());
            writer.event(new SessionEvent.Note(scan.lastNs().orElse(0), WHY));
            writer.end(WHY); // forces it to the disk
        }
    }
}
