package org.holdtrace.command;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.ArrayBlockingQueue;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.TimeUnit;
import org.holdtrace.link.Ask;
import org.holdtrace.link.LinkClient;
import org.holdtrace.link.LinkException;
import org.holdtrace.link.LinkMessage;
import org.holdtrace.link.Status;
import org.holdtrace.quantity.Dimension;
import org.holdtrace.quantity.QuantityException;
import org.holdtrace.quantity.QuantityParser;
import org.holdtrace.remote.Fetch;
import org.holdtrace.wording.SafetyText;

/** {@code live}: follows a logger in the terminal. */
final class LiveCommand implements Command {
    private static final String FOR = "--for";
    private static final int STATE_EVERY_MS = 200;
    private static final int MOST_WAITING = 64;
    private static final long LOOK_MS = 100;
    /** So long a lost link is waited for. */
    private static final long PATIENCE_NS = TimeUnit.SECONDS.toNanos(30);

    private final long beforeNextTryMs;
    private final long patienceNs;

    LiveCommand() {
        this(1000, PATIENCE_NS);
    }

    LiveCommand(long beforeNextTryMs, long patienceNs) {
        this.beforeNextTryMs = beforeNextTryMs;
        this.patienceNs = patienceNs;
    }

    @Override
    public String name() {
        return "live";
    }

    @Override
    public String summary() {
        return "pressure, phase, leak rate and advice from a logger, as they come";
    }

    @Override
    public String synopsis() {
        return "PORT-OR-HOST [options]";
    }

    @Override
    public List<String> description() {
        return List.of(
                "Follows the logger at a serial port (/dev/ttyACM0, COM3) or at a host (logger.local,",
                "10.0.0.7:28650): pressure, phase, strokes, the leak rate ± its standard uncertainty as far as it",
                "can be told, and what to do next. On a terminal this is one line that is drawn over, with each",
                "new advice above it; in a pipe it is a line each second and at each change, with the seconds",
                "since the first. A pulled cable is waited for, for half a minute. Recording never depends on it.",
                "Ends at Ctrl-C. The analysis afterwards knows more than the live rate.",
                "What is asked of the logger is asked once, before anything is shown: clock, plan, end, zero and",
                "beginning, in this order. Where the logger refuses one, the call ends.",
                "Who asks from afar does not see the machine: the one who pumps decides.");
    }

    @Override
    public List<Option> options() {
        List<Option> options = new ArrayList<>();
        options.add(Option.valued(FOR, "TIME", "end after this time, such as \"90 s\""));
        options.addAll(LoggerRequests.options());
        options.addAll(LoggerOptions.options());
        return options;
    }

    @Override
    public int run(Arguments arguments, Streams streams) throws UsageException, IOException {
        LoggerOptions logger = LoggerOptions.of(arguments);
        LoggerRequests requests = LoggerRequests.of(arguments);
        long lengthNs = lengthNs(arguments.value(FOR));
        if (streams.outIsTerminal()) {
            streams.err().println(SafetyText.SHORT);
        }
        return new Run(logger, requests, streams, lengthNs).follow();
    }

    private static long lengthNs(String text) throws UsageException {
        if (text == null) {
            return Long.MAX_VALUE;
        }
        try {
            double seconds = QuantityParser.parse(text, Dimension.TIME).value();
            if (seconds > 0 && seconds <= TimeUnit.DAYS.toSeconds(365)) {
                return (long) (seconds * TimeUnit.SECONDS.toNanos(1));
            }
            throw new UsageException(FOR + ": \"" + text + "\" is not possible; expected a time above 0, such as 90 s");
        } catch (QuantityException e) {
            throw new UsageException(FOR + ": " + e.found() + "; expected " + e.expected());
        }
    }

    /** One call. */
    private final class Run {
        private final LoggerOptions logger;
        private final LoggerRequests requests;
        private final Streams streams;
        private final LiveView view;
        private final long lengthNs;
        private final BlockingQueue<Status> states = new ArrayBlockingQueue<>(MOST_WAITING);
        private boolean everOpen;
        private long openedNs;

        private Run(LoggerOptions logger, LoggerRequests requests, Streams streams, long lengthNs) {
            this.logger = logger;
            this.requests = requests;
            this.streams = streams;
            this.lengthNs = lengthNs;
            view = new LiveView(streams);
        }

        /** What it takes to reach the logger does not count: a short call would end before it has shown anything. */
        private boolean timeIsUp() {
            return everOpen && System.nanoTime() - openedNs >= lengthNs;
        }

        private int follow() {
            long lostNs = 0;
            while (!timeIsUp()) {
                String why;
                boolean open = false;
                try (LinkClient client = logger.open()) {
                    open = true;
                    openedNs = everOpen ? openedNs : System.nanoTime();
                    everOpen = true;
                    try {
                        why = show(client);
                    } finally {
                        // However it ended: from here on it is waited for.
                        lostNs = System.nanoTime();
                    }
                } catch (IOException e) {
                    boolean passes = !(e instanceof LinkException link) || Fetch.mayPass(link);
                    if (!everOpen || !passes || System.nanoTime() - lostNs > patienceNs) {
                        view.end();
                        streams.problem(PlainText.of(e.getMessage()));
                        return ExitCode.SOME_REFUSED;
                    }
                    why = open ? e.getMessage() : "";
                }
                if (!why.isEmpty()) {
                    view.clear();
                    streams.problem(PlainText.of(why) + "; waiting for it");
                }
                if (!timeIsUp() && !pause()) {
                    break;
                }
            }
            view.end();
            return ExitCode.DONE;
        }

        private boolean pause() {
            try {
                Thread.sleep(beforeNextTryMs);
                return true;
            } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
                return false;
            }
        }

        /** Shows until the time is up, which gives an empty text, or the link has ended, which gives why. */
        private String show(LinkClient client) throws IOException {
            Listening listening = new Listening();
            client.listen(listening);
            states.clear();
            requests.send(client, view);
            client.ask(new Ask.Follow(false, STATE_EVERY_MS));
            while (!timeIsUp()) {
                try {
                    Status status = states.poll(LOOK_MS, TimeUnit.MILLISECONDS);
                    if (status != null) {
                        view.show(status);
                    } else if (listening.why != null) {
                        return listening.why.getMessage();
                    }
                } catch (InterruptedException e) {
                    Thread.currentThread().interrupt();
                    return "";
                }
            }
            return "";
        }

        private final class Listening implements LinkClient.Listener {
            private volatile LinkException why;

            @Override
            public void live(LinkMessage message) {
                if (message instanceof LinkMessage.LiveStatus status && !states.offer(status.status())) {
                    states.poll(); // the oldest makes room: who looks wants the newest
                    states.offer(status.status());
                }
            }

            @Override
            public void ended(LinkException reason) {
                why = reason;
            }
        }
    }
}
