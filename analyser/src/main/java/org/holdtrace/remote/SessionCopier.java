package org.holdtrace.remote;

import java.io.IOException;
import java.io.InputStream;
import java.nio.ByteBuffer;
import java.nio.channels.Channels;
import java.nio.channels.FileChannel;
import java.nio.file.AtomicMoveNotSupportedException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.security.MessageDigest;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.concurrent.CompletableFuture;
import java.util.function.LongConsumer;
import org.holdtrace.link.Ask;
import org.holdtrace.link.LinkClient;
import org.holdtrace.link.LinkException;
import org.holdtrace.link.LinkLimits;
import org.holdtrace.link.Reply;
import org.holdtrace.link.SessionNames;
import org.holdtrace.link.StoredFile;
import org.holdtrace.session.Sha256;

/**
 * Copies sessions off a logger into a folder. A copy grows as {@code NAME.hold.part}; what is there of it is used again
 * after it has been compared with the logger's by SHA-256. It gets its name once all of it is proven equal. A file that
 * is here with another content is never written over.
 */
public final class SessionCopier {
    private static final String PART = ".part";

    /** Requests under way: enough to keep a line busy, few enough for a slow one to answer other things between. */
    private static final int UNDER_WAY = 4;

    private static final int BUFFER_BYTES = 1 << 16;

    private final LinkClient client;
    private final Path folder;

    public SessionCopier(LinkClient client, Path folder) {
        this.client = client;
        this.folder = folder;
    }

    /** What became of a session. */
    public enum Outcome {
        /** It was here, all of it, and is the same. */
        HERE_ALREADY,
        /** It is here now. */
        COPIED,
        /** A part of it was here; now all of it is. */
        COMPLETED
    }

    /**
     * Sees to it that {@code session} is here, as far as it was long when it was listed.
     *
     * @param progress told how many of its bytes are here
     * @throws LinkException where the link failed or the logger refused; calling again goes on from there
     * @throws IOException where the folder cannot be written, or the file here is another one
     */
    public Outcome copy(StoredFile session, LongConsumer progress) throws IOException {
        String name = session.name();
        if (!SessionNames.isPlain(name)) {
            throw new IOException("the logger has a session by a name that is none here, left out");
        }
        Path target = folder.resolve(name);
        Path part = folder.resolve(name + PART);
        long here = Files.exists(target) ? Files.size(target) : 0;
        if (here > session.bytes() || !sameAsThere(target, session, here)) {
            throw new IOException("a file of this name is here with another content than the logger's;"
                    + " it was left as it is. Move it away, or copy into another folder");
        }
        if (here == session.bytes() && Files.exists(target)) {
            Files.deleteIfExists(part);
            return Outcome.HERE_ALREADY;
        }
        long partly = Files.exists(part) ? Files.size(part) : 0;
        if (here > partly) {
            Files.copy(target, part, StandardCopyOption.REPLACE_EXISTING);
        }
        boolean some;
        try (FileChannel file =
                FileChannel.open(part, StandardOpenOption.CREATE, StandardOpenOption.READ, StandardOpenOption.WRITE)) {
            long good = equalFromTheStart(file, session);
            some = good > 0;
            file.truncate(good);
            progress.accept(good);
            fetch(file, session, good, progress);
            prove(file, session, good);
            file.force(true);
        }
        move(part, target);
        return some ? Outcome.COMPLETED : Outcome.COPIED;
    }

    private static void move(Path part, Path target) throws IOException {
        try {
            Files.move(part, target, StandardCopyOption.ATOMIC_MOVE, StandardCopyOption.REPLACE_EXISTING);
        } catch (AtomicMoveNotSupportedException e) {
            Files.move(part, target, StandardCopyOption.REPLACE_EXISTING);
        }
    }

    private boolean sameAsThere(Path file, StoredFile session, long length) throws IOException {
        if (length == 0) {
            return true;
        }
        try (FileChannel channel = FileChannel.open(file, StandardOpenOption.READ)) {
            return equalUpTo(channel, session, length) == length;
        }
    }

    /** How many bytes from the start are those of the logger's file, in whole pieces. */
    private long equalFromTheStart(FileChannel file, StoredFile session) throws IOException {
        return equalUpTo(file, session, Math.min(file.size(), session.bytes()));
    }

    private long equalUpTo(FileChannel file, StoredFile session, long length) throws IOException {
        long at = 0;
        while (at < length) {
            int piece = (int) Math.min(LinkLimits.LONGEST_DIGEST, length - at);
            if (!pieceIsEqual(file, session, at, piece)) {
                return at;
            }
            at += piece;
        }
        return at;
    }

    private boolean pieceIsEqual(FileChannel file, StoredFile session, long at, int length) throws IOException {
        Reply.Digest there = client.digest(session.name(), at, length);
        return there.length() == length && MessageDigest.isEqual(there.sha256(), sha256(file, at, length));
    }

    private static byte[] sha256(FileChannel file, long at, int length) throws IOException {
        MessageDigest sha256 = Sha256.begin();
        file.position(at);
        InputStream in = Channels.newInputStream(file);
        byte[] buffer = new byte[BUFFER_BYTES];
        int left = length;
        while (left > 0) {
            int n = in.read(buffer, 0, Math.min(buffer.length, left));
            if (n < 0) {
                break;
            }
            sha256.update(buffer, 0, n);
            left -= n;
        }
        return sha256.digest();
    }

    private void fetch(FileChannel file, StoredFile session, long from, LongConsumer progress) throws IOException {
        Deque<CompletableFuture<Reply>> underWay = new ArrayDeque<>();
        long asked = from;
        long written = from;
        while (written < session.bytes()) {
            while (asked < session.bytes() && underWay.size() < UNDER_WAY) {
                int length = (int) Math.min(LinkLimits.LONGEST_CHUNK, session.bytes() - asked);
                underWay.addLast(client.askLater(new Ask.Fetch(session.name(), asked, length)));
                asked += length;
            }
            Reply reply = client.await(underWay.removeFirst());
            long owed = Math.min(LinkLimits.LONGEST_CHUNK, session.bytes() - written);
            if (!(reply instanceof Reply.Chunk chunk) || chunk.offset() != written || chunk.bytes().length != owed) {
                throw new IOException("the logger's file is shorter than it said; it may be failing");
            }
            ByteBuffer bytes = ByteBuffer.wrap(chunk.bytes());
            while (bytes.hasRemaining()) {
                file.write(bytes, written + bytes.position());
            }
            written += chunk.bytes().length;
            progress.accept(written);
        }
    }

    /** All that was not compared yet. */
    private void prove(FileChannel file, StoredFile session, long from) throws IOException {
        long at = from;
        while (at < session.bytes()) {
            int piece = (int) Math.min(LinkLimits.LONGEST_DIGEST, session.bytes() - at);
            if (!pieceIsEqual(file, session, at, piece)) {
                throw new IOException("the copy is not the same as the logger's file between bytes " + at + " and "
                        + (at + piece) + "; fetch it again, and look whether a disk is failing");
            }
            at += piece;
        }
    }
}
