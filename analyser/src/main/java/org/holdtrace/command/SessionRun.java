package org.holdtrace.command;

import java.io.IOException;
import java.util.ArrayDeque;
import java.util.List;
import java.util.Queue;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import org.holdtrace.library.Failures;
import org.holdtrace.library.InputFile;

/** Does the same work for each input on all processors and hands the outcomes on in the order of the inputs. */
final class SessionRun {
    private static final long PROGRESS_INTERVAL_MS = 200;

    private SessionRun() {}

    /** What is done for one input; called from several threads at once. */
    interface Work<T> {
        T on(InputFile input) throws IOException;
    }

    /** Who takes the outcomes, one at a time and in order. */
    interface Sink<T> {
        void take(InputFile input, T outcome) throws IOException;

        /** Is told of an input that failed, after the error stream was. */
        default void refused(InputFile input, String sentence) {}
    }

    /**
     * Runs {@code work} for every input. An input that fails is named on the error stream and the others go on.
     *
     * @return how many inputs failed
     * @throws IOException if an outcome cannot be written; the run ends then
     */
    static <T> int forEach(List<InputFile> inputs, Work<T> work, Sink<T> sink, Streams streams) throws IOException {
        int threads = Math.min(inputs.size(), Runtime.getRuntime().availableProcessors());
        if (threads <= 1 && !streams.errIsTerminal()) {
            return inTurn(inputs, work, sink, streams);
        }
        ExecutorService pool = Executors.newFixedThreadPool(Math.max(1, threads));
        try {
            Queue<Future<T>> pending = new ArrayDeque<>();
            for (InputFile input : inputs) {
                pending.add(pool.submit(() -> work.on(input)));
            }
            int failed = 0;
            Progress progress = new Progress(streams, inputs.size());
            for (int done = 0; done < inputs.size(); done++) {
                InputFile input = inputs.get(done);
                try {
                    T outcome = await(pending.remove(), progress, done);
                    progress.clear();
                    sink.take(input, outcome);
                } catch (ExecutionException e) {
                    progress.clear();
                    refuse(input, e.getCause(), sink, streams);
                    failed++;
                }
            }
            return failed;
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new IOException("interrupted", e);
        } finally {
            pool.shutdownNow();
        }
    }

    private static <T> int inTurn(List<InputFile> inputs, Work<T> work, Sink<T> sink, Streams streams)
            throws IOException {
        int failed = 0;
        for (InputFile input : inputs) {
            T outcome;
            try {
                outcome = work.on(input);
            } catch (IOException | RuntimeException | OutOfMemoryError e) {
                refuse(input, e, sink, streams);
                failed++;
                continue;
            }
            sink.take(input, outcome);
        }
        return failed;
    }

    private static <T> void refuse(InputFile input, Throwable failure, Sink<T> sink, Streams streams) {
        String sentence = sentence(input, failure);
        streams.problem(sentence);
        sink.refused(input, sentence);
    }

    private static <T> T await(Future<T> outcome, Progress progress, int done)
            throws ExecutionException, InterruptedException {
        while (true) {
            try {
                return outcome.get(PROGRESS_INTERVAL_MS, TimeUnit.MILLISECONDS);
            } catch (TimeoutException e) {
                progress.show(done);
            }
        }
    }

    private static String sentence(InputFile input, Throwable failure) {
        return failure instanceof OutOfMemoryError
                ? input.path() + ": does not fit into the memory Java was given; call it as java -Xmx2g -jar …"
                : Failures.sentence(input.path().toString(), failure);
    }
}
