package org.holdtrace.desk.work;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.holdtrace.estimate.EstimateOptions;
import org.holdtrace.library.Failures;
import org.holdtrace.library.InputFile;
import org.holdtrace.library.WorkNotes;
import org.holdtrace.session.CsvHead;
import org.holdtrace.session.CsvPlan;
import org.holdtrace.session.CsvTraceReader;
import org.holdtrace.session.InputException;

/** Reads and estimates recordings on a thread of its own and hands each to the event thread as soon as it is ready. */
public final class BringIn extends ToldWork<Void> {
    private final List<Path> given;
    private final Map<Path, CsvPlan> plans;
    private final EstimateOptions asked;
    private final Drafts drafts;
    private final Receiver receiver;

    /** Who is told, on the event thread. */
    public interface Receiver {
        /** Now the {@code number}th of {@code count} is read. */
        void reading(String name, int number, int count);

        /** One is ready. */
        void ready(OpenRecording recording);

        /** One was refused, for a reason that names it. */
        void refused(Path path, Throwable reason, String sentence);

        /** A trace whose header does not tell what its columns are; a person may know. */
        void asks(Path path, CsvHead head, String sentence);

        /** Nothing more comes. */
        void finished(boolean cancelled);
    }

    /**
     * Will bring in recordings, and folders of them.
     *
     * @param plans what a person says of the columns of some of them, which is kept beside them first
     * @param asked what results are asked for beyond the setups
     * @param drafts of recordings that stand where nothing can be written
     */
    public BringIn(
            List<Path> given, Map<Path, CsvPlan> plans, EstimateOptions asked, Drafts drafts, Receiver receiver) {
        this.given = List.copyOf(given);
        this.plans = Map.copyOf(plans);
        this.asked = asked;
        this.drafts = drafts;
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
                InputFile input = new InputFile(path, InputFile.stemOf(path));
                if (plans.containsKey(path)) {
                    WorkNotes notes = WorkNotes.beside(input).withColumns(plans.get(path));
                    SafeFile.write(WorkNotes.fileBeside(input), new String(notes.json(), StandardCharsets.UTF_8));
                }
                OpenRecording ready = OpenRecording.read(input, asked, Optional.of(drafts));
                publish(() -> receiver.ready(ready));
            } catch (InputException e) {
                askOrRefuse(path, e);
            } catch (IOException | RuntimeException | OutOfMemoryError e) {
                refuse(path, e);
            }
        }
        return null;
    }

    private void askOrRefuse(Path path, InputException reason) {
        try {
            if (path.toString().endsWith(InputFile.TRACE_ENDING) && !plans.containsKey(path)) {
                CsvHead head = CsvTraceReader.head(path);
                if (!head.tells() && head.couldBeTrace()) {
                    publish(() -> receiver.asks(path, head, reason.getMessage()));
                    return;
                }
            }
            refuse(path, reason);
        } catch (IOException e) {
            refuse(path, reason);
        }
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
    protected void ended() {
        receiver.finished(isCancelled());
    }
}
