package org.holdtrace.desk;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import java.util.function.Supplier;
import org.holdtrace.desk.work.CaseWork;
import org.holdtrace.wording.ShownUnits;

/** Cases on the desk: chosen, judged, shown in their view, and written about. On the event thread. */
final class Cases {
    private final Calls calls;
    private final Output output;
    private final StatusLine status;
    private final Supplier<String> units;
    private final Runnable bringToFront;
    private final CaseView view;

    /**
     * @param units those of the desk, as it remembers them
     * @param bringToFront shows the view of the case
     */
    Cases(Calls calls, Output output, StatusLine status, Supplier<String> units, Runnable bringToFront) {
        this.calls = calls;
        this.output = output;
        this.status = status;
        this.units = units;
        this.bringToFront = bringToFront;
        view = new CaseView(this::judge, this::judgeAgain, this::report, this::plan, this::asJson);
    }

    /** Where a case is shown. */
    CaseView view() {
        return view;
    }

    /** Lets somebody choose a case, and judges it. */
    void judge() {
        if (!calls.isBusy()) {
            output.chooseCase().ifPresent(file -> judge(file, true));
        }
    }

    private void judgeAgain() {
        view.judged().ifPresent(each -> judge(each.file(), false));
    }

    private void judge(Path file, boolean toFront) {
        if (!calls.isBusy()) {
            calls.execute(
                    "Judging " + file.getFileName(),
                    new CaseWork(file, ShownUnits.parse(units.get()), new Judging(toFront)));
        }
    }

    private void report() {
        call("Writing the report", file -> output.report(List.of(file), units.get()));
    }

    private void plan(int number) {
        call("Writing the sheet", file -> output.plan(file, number, units.get()));
    }

    private void call(String what, Function<Path, Optional<List<String>>> ask) {
        if (!calls.isBusy()) {
            view.judged()
                    .flatMap(each -> ask.apply(each.file()))
                    .ifPresent(words -> calls.call(what, words, told -> {}));
        }
    }

    private void asJson() {
        Optional<CaseWork.Judged> judged = view.judged();
        if (judged.isEmpty() || calls.isBusy()) {
            return;
        }
        Path file = judged.get().file();
        output.caseJson(file)
                .ifPresent(to -> calls.call(
                        "Judging",
                        List.of("case", file.toString(), "--json"),
                        told -> output.write(to, told.out(), calls::over)));
    }

    /** What {@link CaseWork} has to tell. */
    private final class Judging implements CaseWork.Receiver {
        private final boolean toFront;

        Judging(boolean toFront) {
            this.toFront = toFront;
        }

        @Override
        public void reading(String name, int number, int count) {
            status.reading(name, number, count);
        }

        @Override
        public void judged(CaseWork.Judged judged) {
            calls.over("Judged", judged.refused());
            view.show(judged);
            if (toFront) {
                bringToFront.run();
            }
        }

        @Override
        public void failed(String sentence) {
            calls.over("Not judged", List.of(sentence));
        }

        @Override
        public void stopped() {
            calls.over("Stopped", List.of());
        }
    }
}
