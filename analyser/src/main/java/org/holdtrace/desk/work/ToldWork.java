package org.holdtrace.desk.work;

import java.util.List;
import javax.swing.SwingWorker;

/**
 * Work on a thread of its own that tells the event thread how it goes. Nothing is told any more once it is over: who
 * stops it hears so at once, while news that was on its way then would make it look as if it still went on.
 *
 * @param <T> what comes of it
 */
public abstract class ToldWork<T> extends SwingWorker<T, Runnable> {
    private boolean over;

    @Override
    protected final void process(List<Runnable> news) {
        for (Runnable each : news) {
            // Asked anew for each: the one before may have stopped the work.
            if (!over) {
                each.run();
            }
        }
    }

    @Override
    protected final void done() {
        over = true;
        ended();
    }

    /** It is over, also where somebody stopped it; on the event thread. */
    protected abstract void ended();
}
