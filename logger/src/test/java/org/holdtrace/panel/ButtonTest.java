package org.holdtrace.panel;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import org.holdtrace.panel.Panel.Press;
import org.junit.jupiter.api.Test;

class ButtonTest {
    private static final long LOOK_NS = 20_000_000;

    private final Button button = new Button();
    private final List<Press> presses = new ArrayList<>();
    private long nowNs;

    private void hold(boolean contact, double seconds) {
        for (int i = 0; i < seconds * 50; i++) {
            nowNs += LOOK_NS;
            button.look(nowNs, contact).ifPresent(presses::add);
        }
    }

    @Test
    void aShortPressIsToldWhenItIsLetGo() {
        hold(false, 1);
        hold(true, 0.5);
        assertEquals(List.of(), presses);
        hold(false, 0.2);
        assertEquals(List.of(Press.SHORT), presses);
    }

    @Test
    void aLongPressIsToldAfterTwoSecondsAndOnlyOnce() {
        hold(false, 1);
        hold(true, 1.9);
        assertEquals(List.of(), presses);
        hold(true, 3);
        hold(false, 1);
        assertEquals(List.of(Press.LONG), presses);
    }

    @Test
    void bouncingContactsMakeOnePress() {
        SplittableRandom random = new SplittableRandom(7);
        hold(false, 1);
        for (int press = 0; press < 50; press++) {
            for (boolean down : new boolean[] {true, false}) {
                for (int i = 0; i < 4; i++) {
                    // It bounces for 80 ms, never three looks the same way.
                    hold(i % 2 == 0 ? down : !down, 0.02);
                }
                hold(down, 0.1 + 0.2 * random.nextDouble());
            }
        }
        assertEquals(50, presses.size());
    }

    @Test
    void aKnockIsNoPress() {
        hold(false, 1);
        hold(true, 0.04);
        hold(false, 1);
        assertEquals(List.of(), presses);
    }

    @Test
    void aButtonThatIsDownFromTheStartIsStuckUntilItIsLetGo() {
        hold(true, 10);
        hold(false, 1);
        assertEquals(List.of(), presses);
        hold(true, 0.3);
        hold(false, 0.3);
        assertEquals(List.of(Press.SHORT), presses);
    }
}
