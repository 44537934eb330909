package org.holdtrace.desk.work;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import javax.swing.SwingWorker;
import org.holdtrace.library.Failures;
import org.holdtrace.library.InputFile;

/** Reads and estimates recordings on a thread of its own and hands each to the event thread as soon as it is ready. */
public final class BringIn extends SwingWorker<Void, Runnable> {
    private final List<Path> given;
    private final Receiver receiver;

    /** Who is told, on the event thread. */
    public interface Receiver {
        /** Now the {@code number}th of {@code count} is read. */
        void reading(String name, int number, int count);

        /** One is ready. */
        void ready(OpenRecording recording);

        /** One was refused, for a reason that names it. */
        void refused(Path path, Throwable reason, String sentence);

        /** Nothing more comes. */
        void finished(boolean cancelled);
    }

    /** Will bring in {@code given}: recordings, and folders of them. */
    public BringIn(List<Path> given, Receiver receiver) {
        this.given = List.copyOf(given);
        this.receiver = receiver;
    }

    @Override
    protected Void doInBackground() {
        List<Path> paths = new ArrayList<>();
        for (Path each : given) {
            expand(each.toAbsolutePath().normalize(), paths);
        }
        for (int i = 0; i < paths.size() && !isCancelled(); i++) {
            Path path = paths.get(i);
            int number = i + 1;
            publish(() -> receiver.reading(path.getFileName().toString(), number, paths.size()));
            try {
                OpenRecording ready = OpenRecording.read(new InputFile(path, InputFile.stemOf(path)));
                publish(() -> receiver.ready(ready));
            } catch (IOException | RuntimeException | OutOfMemoryError e) {
                refuse(path, e);
            }
        }
        return null;
    }

    private void expand(Path path, List<Path> paths) {
        try {
            List<Path> inside = InputFile.inside(path);
            if (inside.isEmpty()) {
                String sentence = path + ": no session (.hold) and no trace (.csv) in this folder";
                publish(() -> receiver.refused(path, new IOException(sentence), sentence));
            }
            for (Path each : inside) {
                if (!paths.contains(each)) {
                    paths.add(each);
                }
            }
        } catch (IOException e) {
            refuse(path, e);
        }
    }

    private void refuse(Path path, Throwable reason) {
        String sentence = reason instanceof OutOfMemoryError
                ? path + ": does not fit into the memory Java was given; start the desk as java -Xmx2g -jar …"
                : Failures.sentence(path.toString(), reason);
        if (!isCancelled()) {
            publish(() -> receiver.refused(path, reason, sentence));
        }
    }

    @Override
    protected void process(List<Runnable> news) {
        for (Runnable each : news) {
            // What was ready before somebody cancelled is kept.
            each.run();
        }
    }

    @Override
    protected void done() {
        receiver.finished(isCancelled());
    }
}
