package org.holdtrace.desk.work;

import java.util.concurrent.Callable;
import java.util.concurrent.ExecutionException;
import java.util.function.Consumer;
import javax.swing.SwingWorker;

/** Work that would hold up the window, done on a thread of its own. */
public final class Background {
    private Background() {}

    /** Does {@code work}; {@code then} hears what came of it, or {@code failed} why nothing did, on the event thread. */
    public static <T> void run(Callable<T> work, Consumer<T> then, Consumer<Throwable> failed) {
        new SwingWorker<T, Void>() {
            @Override
            protected T doInBackground() throws Exception {
                return work.call();
            }

            @Override
            protected void done() {
                T found;
                try {
                    found = get();
                } catch (InterruptedException e) {
                    Thread.currentThread().interrupt();
                    return;
                } catch (ExecutionException e) {
                    failed.accept(e.getCause());
                    return;
                }
                then.accept(found);
            }
        }.execute();
    }
}
