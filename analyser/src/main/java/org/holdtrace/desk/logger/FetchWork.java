package org.holdtrace.desk.logger;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.ExecutionException;
import org.holdtrace.desk.work.ToldWork;
import org.holdtrace.library.Failures;
import org.holdtrace.link.LinkException;
import org.holdtrace.link.StoredFile;
import org.holdtrace.remote.Fetch;
import org.holdtrace.remote.SessionCopier;
import org.holdtrace.session.Loss;

/** Fetches the sessions of a logger on a thread of its own. */
public final class FetchWork extends ToldWork<List<Path>> {
    private static final long BEFORE_NEXT_TRY_MS = 1000;
    private static final long NEWS_EVERY_NS = 100_000_000;

    /** Who is told, on the event thread. */
    public interface Receiver {
        /** So much of session {@code name} is here. */
        void progress(String name, long bytes, long ofBytes);

        /** Something a person should know. */
        void problem(String sentence);

        /** Nothing more comes; {@code files} are here now, those that were here before included. */
        void finished(List<Path> files, boolean stopped);
    }

    private final Fetch.Opener opener;
    private final Path folder;
    private final Receiver receiver;
    private final List<Path> here = new ArrayList<>();

    /** Will copy into {@code folder}, which must exist. */
    public FetchWork(Fetch.Opener opener, Path folder, Receiver receiver) {
        this.opener = opener;
        this.folder = folder;
        this.receiver = receiver;
    }

    @Override
    protected List<Path> doInBackground() throws IOException {
        new Fetch(opener, folder, BEFORE_NEXT_TRY_MS, new Told()).all();
        return here;
    }

    @Override
    protected void ended() {
        try {
            if (!isCancelled()) {
                get();
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        } catch (ExecutionException e) {
            receiver.problem(
                    e.getCause() instanceof IOException io
                            ? io.getMessage()
                            : Failures.sentence("the logger", e.getCause()));
        }
        receiver.finished(isCancelled() ? List.of() : List.copyOf(here), isCancelled());
    }

    private final class Told implements Fetch.Listener {
        private long nextNs = System.nanoTime();

        @Override
        public void listed(int count) {
            publish(() -> {
                if (count == 0) {
                    receiver.problem("There is no session on this logger.");
                }
            });
        }

        @Override
        public void progress(StoredFile session, long bytes) {
            long nowNs = System.nanoTime();
            if (nowNs - nextNs >= 0) {
                nextNs = nowNs + NEWS_EVERY_NS;
                publish(() -> receiver.progress(session.name(), bytes, session.bytes()));
            }
        }

        @Override
        public void here(StoredFile session, SessionCopier.Outcome outcome, Path file) {
            here.add(file);
        }

        @Override
        public void problem(StoredFile session, IOException why) {
            String sentence = Failures.sentence(session.name(), why);
            if (!isCancelled()) {
                publish(() -> receiver.problem(sentence));
            }
        }

        @Override
        public void loss(StoredFile session, Loss loss) {
            publish(() -> receiver.problem(session.name() + ": " + loss.describe()));
        }

        @Override
        public void lost(LinkException why) {
            publish(() -> receiver.problem(why.getMessage() + "; trying again"));
        }
    }
}
