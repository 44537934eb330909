package org.holdtrace.command;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayDeque;
import java.util.List;
import java.util.Queue;
import java.util.function.Supplier;
import org.holdtrace.library.Failures;
import org.holdtrace.link.Ask;
import org.holdtrace.link.LinkClient;
import org.holdtrace.session.SetupReader;
import org.holdtrace.session.TestSetup;

/** What a call asks of a logger once, in the order in which it makes sense: first what a session's head shows. */
final class LoggerRequests {
    static final String PLAN = "--plan";
    static final String ZERO = "--zero";
    static final String START = "--start";
    static final String STOP = "--stop";
    static final String CLOCK = "--clock";

    /** A request that waits to be made. */
    private record Request(String done, Supplier<Ask> ask) {}

    private final Queue<Request> requests = new ArrayDeque<>();

    private LoggerRequests() {}

    static List<Option> options() {
        return List.of(
                Option.valued(PLAN, "FILE", "a setup: what is known of the next test, for the logger to go by"),
                Option.flag(CLOCK, "set the logger's clock by this computer's"),
                Option.flag(ZERO, "take the present pressure as zero; the line must be open to the atmosphere"),
                Option.flag(STOP, "end the session that is being recorded"),
                Option.flag(START, "begin a session; after " + STOP + " another one"));
    }

    static LoggerRequests of(Arguments arguments) throws UsageException {
        LoggerRequests all = new LoggerRequests();
        if (arguments.has(CLOCK)) {
            // Asked for when it is sent: a clock that was waited for would be late.
            all.requests.add(new Request("the logger's clock is set", () -> new Ask.Clock(Instant.now())));
        }
        if (arguments.value(PLAN) != null) {
            Ask plan = new Ask.Plan(setup(arguments.value(PLAN)));
            all.requests.add(new Request("the plan is with the logger", () -> plan));
        }
        if (arguments.has(STOP)) {
            all.requests.add(new Request("the session is ended", Ask.Stop::new));
        }
        if (arguments.has(ZERO)) {
            all.requests.add(new Request("the present pressure is zero from now on", Ask.Zero::new));
        }
        if (arguments.has(START)) {
            all.requests.add(new Request("a session is being recorded", Ask.Start::new));
        }
        return all;
    }

    private static TestSetup setup(String file) throws UsageException {
        Path path = Inputs.path(file);
        try {
            return SetupReader.read(path);
        } catch (IOException e) {
            throw new UsageException(PLAN + ": " + Failures.sentence(file, e));
        }
    }

    /**
     * Makes those that were not made yet; what was done is told to {@code view}.
     *
     * @throws IOException where the logger refuses one: those behind it are not made
     */
    void send(LinkClient client, LiveView view) throws IOException {
        while (!requests.isEmpty()) {
            Request next = requests.element();
            client.ask(next.ask.get());
            view.note(next.done);
            requests.remove();
        }
    }
}
