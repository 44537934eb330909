package org.holdtrace.serve;

import java.io.FileNotFoundException;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.security.MessageDigest;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.holdtrace.link.Ask;
import org.holdtrace.link.LinkException;
import org.holdtrace.link.LinkLimits;
import org.holdtrace.link.LinkMessage;
import org.holdtrace.link.Reply;
import org.holdtrace.link.SessionNames;
import org.holdtrace.link.Status;
import org.holdtrace.link.StoredFile;
import org.holdtrace.session.Sha256;

/** Does what a client asks for. Whatever goes wrong becomes an answer; nothing is kept from one request to the next. */
final class Answers {
    private static final int BUFFER_BYTES = 1 << 16;
    private static final int MOST_FAULTS = 16;
    private static final int LONGEST_FAULT = 400;

    private final LinkServer server;
    private final LoggerControl control;
    private final Outbox outbox;

    Answers(LinkServer server, Outbox outbox) {
        this.server = server;
        this.control = server.control();
        this.outbox = outbox;
    }

    /** The answer to a request. */
    LinkMessage to(LinkMessage.Request request) {
        try {
            return new LinkMessage.Answer(request.id(), reply(request.ask()));
        } catch (LinkException e) {
            return new LinkMessage.Failure(request.id(), e.code(), e.getMessage());
        } catch (IOException e) {
            String text = e.getMessage() == null ? e.toString() : e.getMessage();
            return new LinkMessage.Failure(request.id(), LinkException.REFUSED, text);
        } catch (RuntimeException e) {
            server.note("link: a request failed by a slip of ours: " + e);
            return new LinkMessage.Failure(
                    request.id(), LinkException.INTERNAL, "this should not happen, please report it: " + e);
        }
    }

    /** The logger's name; empty where it cannot tell. */
    String instrument() {
        try {
            return control.state().header().instrument();
        } catch (RuntimeException e) {
            server.note("link: the state is not to be had: " + e);
            return "";
        }
    }

    private Reply reply(Ask ask) throws IOException {
        if (ask instanceof Ask.State) {
            return new Reply.StatusNow(status(control.state()));
        } else if (ask instanceof Ask.Sessions sessions) {
            return sessions(sessions.from());
        } else if (ask instanceof Ask.Fetch fetch) {
            return fetch(fetch);
        } else if (ask instanceof Ask.Digest digest) {
            return digest(digest);
        } else if (ask instanceof Ask.Start) {
            return new Reply.Started(control.start());
        } else if (ask instanceof Ask.Stop) {
            control.stop();
        } else if (ask instanceof Ask.Zero) {
            control.zero();
        } else if (ask instanceof Ask.Plan plan) {
            control.plan(plan.setup());
        } else if (ask instanceof Ask.Clock clock) {
            control.clock(clock.now());
        } else if (ask instanceof Ask.Follow follow) {
            outbox.follow(follow.samples(), follow.everyMs());
        } else if (ask instanceof Ask.Unfollow) {
            outbox.unfollow();
        }
        return new Reply.Done();
    }

    private Reply sessions(long from) throws IOException {
        List<LoggerControl.StoredSession> all = control.sessions();
        List<StoredFile> files = new ArrayList<>();
        for (long i = from; i < all.size() && files.size() < LinkLimits.LONGEST_LISTING; i++) {
            LoggerControl.StoredSession session = all.get((int) i);
            files.add(new StoredFile(session.name(), session.bytes(), session.open()));
        }
        return new Reply.Sessions(from, all.size(), files);
    }

    private FileChannel open(String name) throws IOException {
        if (!SessionNames.isPlain(name)) {
            throw new LinkException(LinkException.NO_SESSION, "\"" + name + "\" is not the name of a session");
        }
        try {
            Path file = control.file(name);
            return FileChannel.open(file, StandardOpenOption.READ);
        } catch (NoSuchFileException | FileNotFoundException e) {
            throw new LinkException(LinkException.NO_SESSION, "there is no session " + name + " on this logger", e);
        } catch (IOException e) {
            throw new LinkException(LinkException.NO_SESSION, e.getMessage(), e);
        }
    }

    private Reply fetch(Ask.Fetch ask) throws IOException {
        try (FileChannel file = open(ask.name())) {
            byte[] bytes = new byte[ask.length()];
            ByteBuffer into = ByteBuffer.wrap(bytes);
            readFrom(file, ask.offset(), into);
            return new Reply.Chunk(ask.offset(), Arrays.copyOf(bytes, into.position()));
        }
    }

    /** Fills {@code into} as far as the file goes. */
    private static void readFrom(FileChannel file, long offset, ByteBuffer into) throws IOException {
        long at = offset;
        while (into.hasRemaining()) {
            int n = file.read(into, at);
            if (n < 0) {
                return;
            }
            at += n;
        }
    }

    private Reply digest(Ask.Digest ask) throws IOException {
        MessageDigest sha256 = Sha256.begin();
        ByteBuffer buffer = ByteBuffer.allocate(BUFFER_BYTES);
        long done = 0;
        try (FileChannel file = open(ask.name())) {
            boolean more = true;
            while (more && done < ask.length()) {
                buffer.clear().limit((int) Math.min(buffer.capacity(), ask.length() - done));
                readFrom(file, ask.offset() + done, buffer);
                more = !buffer.hasRemaining();
                done += buffer.position();
                sha256.update(buffer.flip());
            }
        }
        return new Reply.Digest(ask.offset(), done, sha256.digest());
    }

    /** The state as it travels: no more of the faults than a frame takes. */
    static Status status(LoggerState state) {
        Status now = state.status();
        List<String> faults = new ArrayList<>();
        for (String fault : now.faults()) {
            if (faults.size() < MOST_FAULTS) {
                faults.add(fault.length() <= LONGEST_FAULT ? fault : fault.substring(0, LONGEST_FAULT));
            }
        }
        return new Status(
                now.timeNs(),
                now.session(),
                now.pressurePa(),
                now.phase(),
                Math.max(0, now.strokes()),
                now.leakM3PerS(),
                now.leakUncertaintyM3PerS(),
                now.advice(),
                now.enough(),
                faults,
                Math.max(0, now.freeBytes()));
    }
}
