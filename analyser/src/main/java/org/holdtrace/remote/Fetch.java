package org.holdtrace.remote;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import org.holdtrace.link.LinkClient;
import org.holdtrace.link.LinkException;
import org.holdtrace.link.StoredFile;
import org.holdtrace.session.HoldFileReader;
import org.holdtrace.session.Loss;
import org.holdtrace.session.Session;

/**
 * Copies every session of a logger, each one checked, those that are here skipped; a link that is lost is opened again. The
 * same for the command line and the desk. One call on one thread; interrupting that thread stops it, and what has come
 * is kept.
 */
public final class Fetch {
    /** Tries to get a lost link back. */
    private static final int MOST_TRIES = 10;

    private final Opener opener;
    private final Path folder;
    private final long beforeNextTryMs;
    private final Listener listener;
    private LinkClient client;

    /** Opens a link to the logger. */
    @FunctionalInterface
    public interface Opener {
        /**
         * Opens it, or tries to.
         *
         * @throws IOException where no logger is reached, and why
         */
        LinkClient open() throws IOException;
    }

    /** Who is told, on the fetching thread. */
    public interface Listener {
        /** So many sessions are on the logger. */
        void listed(int count);

        /** So much of a session is here. */
        void progress(StoredFile session, long bytes);

        /** A session is here, proven equal to the logger's. */
        void here(StoredFile session, SessionCopier.Outcome outcome, Path file);

        /** Something is wrong with a session, or with its copy. */
        void problem(StoredFile session, IOException why);

        /** A copy is what the logger has, and this is missing or damaged in it. */
        void loss(StoredFile session, Loss loss);

        /** The link was lost, which may pass. */
        void lost(LinkException why);
    }

    /**
     * @param beforeNextTryMs how long to wait before a lost link is opened again, ms
     * @param folder to copy into, which must exist
     */
    public Fetch(Opener opener, Path folder, long beforeNextTryMs, Listener listener) {
        this.opener = opener;
        this.folder = folder;
        this.beforeNextTryMs = beforeNextTryMs;
        this.listener = listener;
    }

    /**
     * Fetches all there are.
     *
     * @throws IOException where the logger cannot be reached, or the link is lost for good
     */
    public void all() throws IOException {
        try {
            client = opener.open();
            List<StoredFile> sessions = client.sessions();
            listener.listed(sessions.size());
            for (StoredFile session : sessions) {
                one(session);
            }
        } finally {
            if (client != null) {
                client.close();
            }
        }
    }

    private void one(StoredFile session) throws LinkException {
        try {
            SessionCopier.Outcome outcome = copy(session);
            Path file = folder.resolve(session.name());
            listener.here(session, outcome, file);
            if (outcome != SessionCopier.Outcome.HERE_ALREADY) {
                readThrough(session, file);
            }
        } catch (LinkException e) {
            if (mayPass(e)) {
                throw e;
            }
            listener.problem(session, e);
        } catch (IOException e) {
            listener.problem(session, e);
        }
    }

    /** Copies, and goes on where a link was lost and came back. */
    private SessionCopier.Outcome copy(StoredFile session) throws IOException {
        for (int i = 0; ; i++) {
            try {
                return new SessionCopier(client, folder).copy(session, bytes -> listener.progress(session, bytes));
            } catch (LinkException e) {
                if (!mayPass(e) || i == MOST_TRIES || Thread.currentThread().isInterrupted()) {
                    throw e;
                }
                listener.lost(e);
                again(e);
            }
        }
    }

    private void again(LinkException lost) throws LinkException {
        client.close();
        IOException last = lost;
        for (int i = 0; i < MOST_TRIES; i++) {
            try {
                Thread.sleep(beforeNextTryMs);
                client = opener.open();
                return;
            } catch (IOException e) {
                last = e;
            } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
                throw new LinkException(LinkException.CLOSED, "interrupted", e);
            }
        }
        throw new LinkException(
                LinkException.CLOSED,
                last.getMessage() + "; what has come is kept, and fetching again goes on from there",
                last);
    }

    /** The copy is what the logger has; whether that is a whole session is another question. */
    private void readThrough(StoredFile session, Path file) {
        try {
            Session read = HoldFileReader.read(file);
            for (Loss loss : read.losses()) {
                if (!(session.open() && loss.kind() == Loss.Kind.TORN_TAIL)) {
                    listener.loss(session, loss);
                }
            }
        } catch (IOException e) {
            listener.problem(session, e);
        }
    }

    /** Whether trying again may help: the cable was pulled, say. */
    public static boolean mayPass(LinkException e) {
        return e.code().equals(LinkException.CLOSED) || e.code().equals(LinkException.SILENT);
    }
}
