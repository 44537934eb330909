package org.holdtrace.desk.classroom;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.event.ActionEvent;
import java.util.List;
import org.holdtrace.desk.look.Theme;
import org.holdtrace.trace.Phase;
import org.junit.jupiter.api.Test;

/** The screen without a window; its pictures stay in {@code target/pictures}. */
class ClassViewTest {
    private final LineSource line = new LineSource();
    private final ClassView view = new ClassView(Theme.usual());

    @Test
    void theSoundLineHoldsAndTheWornOneStallsWhileTheSameHandPumps() {
        view.show(List.of(new Still(line)));
        pass(5);
        for (int i = 0; i < 10; i++) {
            press("SPACE");
            pass(1);
        }
        pass(4);
        ClassView.class.cast(view).setUnit(org.holdtrace.quantity.Unit.BAR);
        Pictures.of(view, 1366, 768, "class-light-1366");
        view.setTheme(new Theme(true, 100));
        Pictures.of(view, 1920, 1080, "class-dark-1920");
        Pictures.of(view, 3840, 2160, "class-dark-4k");
        Lane.Shown sound = line.lanes().get(0).shown();
        Lane.Shown worn = line.lanes().get(1).shown();
        assertEquals(Phase.SETTLING, sound.phase());
        assertTrue(sound.pressurePa() > 110e5, "sound: " + sound);
        assertTrue(worn.pressurePa() < 0.3 * sound.pressurePa(), "worn: " + worn);
    }

    private void pass(double seconds) {
        for (double t = 0; t < seconds; t += 0.02) {
            line.tick(0.02);
        }
    }

    private void press(String stroke) {
        view.getActionMap().get(stroke).actionPerformed(new ActionEvent(view, 0, stroke));
    }
}
