package org.holdtrace.desk.classroom;

/** A source that the passing of time moves: what is played or simulated. While nobody looks, time stands still. */
abstract class TimedSource implements Source {
    private final String threadName;
    private volatile String trouble = "";
    private Ticker ticker;
    private Runnable changed = () -> {};

    /** One whose time passes on a thread called {@code threadName}. */
    TimedSource(String threadName) {
        this.threadName = threadName;
    }

    /** Lets {@code passedS} of the wall clock pass. */
    abstract void tick(double passedS);

    /** There is something new to be seen. */
    final void tellChanged() {
        changed.run();
    }

    /** What went wrong, to stand behind the title; empty where nothing did. */
    final String trouble() {
        return trouble;
    }

    /** Runs {@code work} between two ticks; at once before the first. */
    final void betweenTicks(Runnable work) {
        if (ticker == null) {
            work.run();
        } else {
            ticker.run(() -> {
                work.run();
                changed.run();
            });
        }
    }

    @Override
    public final void begin(Runnable whenChanged) {
        changed = whenChanged;
        ticker = new Ticker(threadName, this::tick, e -> trouble = " · this should not happen: " + e);
    }

    @Override
    public final void rest(boolean now) {
        if (ticker != null) {
            ticker.rest(now);
        }
    }

    @Override
    public final void close() {
        if (ticker != null) {
            ticker.close();
        }
    }
}
