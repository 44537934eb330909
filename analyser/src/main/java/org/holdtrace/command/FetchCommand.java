package org.holdtrace.command;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.holdtrace.library.Failures;
import org.holdtrace.link.LinkClient;
import org.holdtrace.link.LinkException;
import org.holdtrace.link.StoredFile;
import org.holdtrace.remote.SessionCopier;
import org.holdtrace.session.HoldFileReader;
import org.holdtrace.session.Loss;
import org.holdtrace.session.Session;

/** {@code fetch}: copies the sessions off a logger, checks every one, skips those already here. */
final class FetchCommand implements Command {
    private static final String OUT = "--out";
    /** Tries to get a lost link back, a second or more each. */
    private static final int MOST_TRIES = 10;

    private final long beforeNextTryMs;

    FetchCommand() {
        this(1000);
    }

    FetchCommand(long beforeNextTryMs) {
        this.beforeNextTryMs = beforeNextTryMs;
    }

    @Override
    public String name() {
        return "fetch";
    }

    @Override
    public String summary() {
        return "the sessions off a logger, each copy checked; those already here are skipped";
    }

    @Override
    public String synopsis() {
        return "PORT-OR-HOST --out DIR [options]";
    }

    @Override
    public List<String> description() {
        return List.of(
                "Copies every session of the logger at a serial port (/dev/ttyACM0, COM3) or at a host",
                "(logger.local, 10.0.0.7:28650) into DIR. Each copy is compared with the logger's file by SHA-256",
                "before it gets its name, and then read through once. A session that is here already is compared",
                "and skipped; one that is here with another content is left alone and named. When the cable is",
                "pulled, what has come is kept as NAME.hold.part, and the next fetch goes on from there. A",
                "session still being recorded is copied as far as it goes and completed by a later fetch. Nothing",
                "is ever deleted on the logger.");
    }

    @Override
    public List<Option> options() {
        List<Option> options = new ArrayList<>();
        options.add(Option.valued(OUT, "DIR", "the folder to copy into; made if it is not there"));
        options.addAll(LoggerOptions.options());
        return options;
    }

    @Override
    public int run(Arguments arguments, Streams streams) throws UsageException, IOException {
        LoggerOptions logger = LoggerOptions.of(arguments);
        Path folder = OutputFolder.create(OUT, arguments.required(OUT));
        return new Run(logger, folder, streams).all();
    }

    /** One call. */
    private final class Run {
        private final LoggerOptions logger;
        private final Path folder;
        private final Streams streams;
        private final FetchBar bar;
        private LinkClient client;
        private int copied;
        private int hereAlready;
        private int problems;

        private Run(LoggerOptions logger, Path folder, Streams streams) {
            this.logger = logger;
            this.folder = folder;
            this.streams = streams;
            bar = new FetchBar(streams);
        }

        private int all() {
            try {
                client = logger.open();
                List<StoredFile> sessions = client.sessions();
                for (StoredFile session : sessions) {
                    one(session);
                }
                streams.out()
                        .println(sessions.size() + (sessions.size() == 1 ? " session" : " sessions")
                                + " on the logger: " + copied + " copied, " + hereAlready + " here already"
                                + (problems == 0 ? "" : ", " + problems + " with problems"));
            } catch (IOException e) {
                bar.clear();
                streams.problem(PlainText.of(e.getMessage()));
                problems++;
            } finally {
                if (client != null) {
                    client.close();
                }
            }
            return problems == 0 ? ExitCode.DONE : ExitCode.SOME_REFUSED;
        }

        /** @throws LinkException where the link is lost for good */
        private void one(StoredFile session) throws LinkException {
            String name = PlainText.of(session.name());
            try {
                SessionCopier.Outcome outcome = copy(session, name);
                bar.clear();
                tell(session, name, outcome);
            } catch (LinkException e) {
                if (LoggerOptions.mayPass(e)) {
                    throw e;
                }
                problem(name, e);
            } catch (IOException e) {
                problem(name, e);
            }
        }

        private void problem(String name, IOException e) {
            bar.clear();
            streams.problem(Failures.sentence(name, e));
            problems++;
        }

        /** Copies, and goes on where a link was lost and came back. */
        private SessionCopier.Outcome copy(StoredFile session, String name) throws IOException {
            for (int i = 0; ; i++) {
                try {
                    return new SessionCopier(client, folder)
                            .copy(session, done -> bar.show(name, done, session.bytes()));
                } catch (LinkException e) {
                    if (!LoggerOptions.mayPass(e) || i == MOST_TRIES) {
                        throw e;
                    }
                    bar.clear();
                    streams.problem(PlainText.of(e.getMessage()) + "; trying again");
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
                    client = logger.open();
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

        private void tell(StoredFile session, String name, SessionCopier.Outcome outcome) {
            String size = FetchBar.megabytes(session.bytes()) + " MB";
            if (outcome == SessionCopier.Outcome.HERE_ALREADY) {
                hereAlready++;
                streams.out().println(name + "  " + size + "  here already");
                return;
            }
            copied++;
            String word = outcome == SessionCopier.Outcome.COPIED ? "copied" : "completed";
            streams.out()
                    .println(name + "  " + size + "  " + word + " and compared"
                            + (session.open() ? "; still being recorded, fetch it again later" : ""));
            readThrough(session, name);
        }

        /** The copy is what the logger has; whether that is a whole session is another question. */
        private void readThrough(StoredFile session, String name) {
            try {
                Session read = HoldFileReader.read(folder.resolve(session.name()));
                for (Loss loss : read.losses()) {
                    if (!(session.open() && loss.kind() == Loss.Kind.TORN_TAIL)) {
                        streams.problem(name + ": " + loss.describe());
                    }
                }
            } catch (IOException e) {
                problem(name, e);
            }
        }
    }
}
