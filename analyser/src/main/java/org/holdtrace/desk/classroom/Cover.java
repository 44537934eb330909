package org.holdtrace.desk.classroom;

import java.util.List;
import java.util.Optional;
import java.util.function.Supplier;
import javax.swing.Timer;
import org.holdtrace.desk.work.Background;
import org.holdtrace.wording.ShownUnits;

/**
 * The cover over the verdicts of all lanes. While it is off they are worked out anew every few seconds, away from the
 * event thread, on which all calls are made.
 */
final class Cover {
    private static final int EVERY_MS = 3000;

    private final Supplier<List<LaneView>> views;
    private final Supplier<ShownUnits> units;
    private final Timer again = new Timer(EVERY_MS, event -> ask());
    private boolean isOff;
    private int asked;

    /**
     * @param views the lanes that are shown
     * @param units what verdicts are said in
     */
    Cover(Supplier<List<LaneView>> views, Supplier<ShownUnits> units) {
        this.views = views;
        this.units = units;
    }

    /** Whether the verdicts are to be seen. */
    boolean isOff() {
        return isOff;
    }

    /** Takes it off or puts it on. */
    void set(boolean off) {
        isOff = off;
        asked++;
        if (off) {
            views.get().forEach(LaneView::working);
            ask();
            again.start();
        } else {
            again.stop();
            views.get().forEach(LaneView::cover);
        }
    }

    /** Look or units are others now: what is said is said anew. */
    void refresh() {
        if (isOff) {
            ask();
        } else {
            views.get().forEach(LaneView::cover);
        }
    }

    /** Whether nobody looks for now. */
    void rest(boolean now) {
        if (now) {
            again.stop();
        } else if (isOff) {
            again.start();
        }
    }

    private void ask() {
        int question = ++asked;
        ShownUnits shown = units.get();
        for (LaneView view : views.get()) {
            Background.run(
                    () -> view.lane().verdict().of(view.lane(), shown),
                    told -> answer(question, view, told),
                    why -> answer(
                            question,
                            view,
                            new Verdict.Told(
                                    "no verdict",
                                    "this should not happen, please report it: " + why,
                                    Optional.empty())));
        }
    }

    private void answer(int question, LaneView view, Verdict.Told told) {
        if (question == asked && isOff) { // else covered, or asked anew, meanwhile
            view.uncover(told);
        }
    }
}
