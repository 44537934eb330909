package org.holdtrace.command;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.holdtrace.library.Failures;
import org.holdtrace.link.LinkException;
import org.holdtrace.link.StoredFile;
import org.holdtrace.remote.Fetch;
import org.holdtrace.remote.SessionCopier;
import org.holdtrace.session.Loss;

/** {@code fetch}: copies the sessions off a logger, checks every one, skips those already here. */
final class FetchCommand implements Command {
    private static final String OUT = "--out";
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
    private final class Run implements Fetch.Listener {
        private final LoggerOptions logger;
        private final Path folder;
        private final Streams streams;
        private final FetchBar bar;
        private int count;
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
                new Fetch(logger::open, folder, beforeNextTryMs, this).all();
                streams.out()
                        .println(count + (count == 1 ? " session" : " sessions") + " on the logger: " + copied
                                + " copied, " + hereAlready + " here already"
                                + (problems == 0 ? "" : ", " + problems + " with problems"));
            } catch (IOException e) {
                bar.clear();
                streams.problem(PlainText.of(e.getMessage()));
                problems++;
            }
            return problems == 0 ? ExitCode.DONE : ExitCode.SOME_REFUSED;
        }

        @Override
        public void listed(int sessions) {
            count = sessions;
        }

        @Override
        public void progress(StoredFile session, long bytes) {
            bar.show(PlainText.of(session.name()), bytes, session.bytes());
        }

        @Override
        public void problem(StoredFile session, IOException why) {
            bar.clear();
            streams.problem(Failures.sentence(PlainText.of(session.name()), why));
            problems++;
        }

        @Override
        public void loss(StoredFile session, Loss loss) {
            streams.problem(PlainText.of(session.name()) + ": " + loss.describe());
        }

        @Override
        public void lost(LinkException why) {
            bar.clear();
            streams.problem(PlainText.of(why.getMessage()) + "; trying again");
        }

        @Override
        public void here(StoredFile session, SessionCopier.Outcome outcome, Path file) {
            bar.clear();
            String name = PlainText.of(session.name());
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
        }
    }
}
