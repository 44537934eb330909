package org.holdtrace.desk.work;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.ExecutionException;
import org.holdtrace.judge.CaseFindings;
import org.holdtrace.library.CaseStudy;
import org.holdtrace.library.Failures;
import org.holdtrace.library.InputFile;
import org.holdtrace.wording.ShownUnits;

/** Reads a case, has its sessions estimated and judges it, on a thread of its own, the way the command {@code case} does. */
public final class CaseWork extends ToldWork<CaseWork.Judged> {
    /**
     * A case that was judged.
     *
     * @param file it was read from
     * @param findings all that is said about it
     * @param refused a sentence for each session that could not be used
     */
    public record Judged(Path file, CaseFindings findings, List<String> refused) {
        public Judged {
            refused = List.copyOf(refused);
        }
    }

    /** Who is told, on the event thread. */
    public interface Receiver {
        /** Now the {@code number}th of {@code count} sessions is read. */
        void reading(String name, int number, int count);

        /** It is done. */
        void judged(Judged judged);

        /** It could not be judged, and why. */
        void failed(String sentence);

        /** Somebody stopped it. */
        void stopped();
    }

    private final Path file;
    private final ShownUnits units;
    private final Receiver receiver;

    /** Will judge the case in {@code file}, its sentences in {@code units}. */
    public CaseWork(Path file, ShownUnits units, Receiver receiver) {
        this.file = file;
        this.units = units;
        this.receiver = receiver;
    }

    @Override
    protected Judged doInBackground() throws IOException {
        CaseStudy study = CaseStudy.open(
                file, (input, options) -> OpenRecording.read(input, options).estimated());
        List<CaseStudy.Source> sources = new ArrayList<>();
        List<String> refused = new ArrayList<>();
        List<InputFile> inputs = study.inputs();
        for (int i = 0; i < inputs.size() && !isCancelled(); i++) {
            InputFile input = inputs.get(i);
            int number = i + 1;
            publish(() -> receiver.reading(input.name(), number, inputs.size()));
            try {
                sources.add(study.examine(input));
            } catch (IOException e) {
                refused.add(Failures.sentence(input.path().toString(), e));
            }
        }
        return new Judged(file, study.judge(sources, units), refused);
    }

    @Override
    protected void ended() {
        if (isCancelled()) {
            receiver.stopped();
            return;
        }
        try {
            receiver.judged(get());
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        } catch (ExecutionException e) {
            receiver.failed(Failures.sentence(file.toString(), e.getCause()));
        }
    }
}
