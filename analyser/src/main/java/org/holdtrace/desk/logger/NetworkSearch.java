package org.holdtrace.desk.logger;

import java.io.IOException;
import java.util.function.Consumer;
import javax.swing.SwingUtilities;
import org.holdtrace.library.Failures;
import org.holdtrace.remote.NetworkLoggers;

/** Looks for loggers on the network while a form is open; opening and closing the search take their time elsewhere. */
final class NetworkSearch {
    private final Consumer<NetworkLoggers.Announced> heard;
    private final Consumer<String> failed;
    private Object current;

    /**
     * @param heard told of each logger, on the event thread
     * @param failed told why nothing can be looked for, on the event thread
     */
    NetworkSearch(Consumer<NetworkLoggers.Announced> heard, Consumer<String> failed) {
        this.heard = heard;
        this.failed = failed;
    }

    /** Begins to look. On the event thread. */
    void begin() {
        Object search = new Object();
        synchronized (this) {
            current = search;
        }
        Thread thread = new Thread(() -> look(search), "loggers on the network");
        thread.setDaemon(true);
        thread.start();
    }

    /** Ends it; nothing more is told. On the event thread. */
    void end() {
        synchronized (this) {
            current = null;
            notifyAll();
        }
    }

    private void look(Object search) {
        try {
            NetworkLoggers open = NetworkLoggers.look(logger -> tell(search, () -> heard.accept(logger)));
            try {
                waitForTheEndOf(search);
            } finally {
                open.close();
            }
        } catch (IOException e) {
            tell(search, () -> failed.accept(Failures.sentence("the network", e)));
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    private synchronized void waitForTheEndOf(Object search) throws InterruptedException {
        while (isCurrent(search)) {
            wait();
        }
    }

    @SuppressWarnings("ReferenceEquality") // a search is known by itself
    private synchronized boolean isCurrent(Object search) {
        return current == search;
    }

    private void tell(Object search, Runnable what) {
        SwingUtilities.invokeLater(() -> {
            if (isCurrent(search)) {
                what.run();
            }
        });
    }
}
