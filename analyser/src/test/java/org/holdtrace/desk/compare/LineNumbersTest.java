package org.holdtrace.desk.compare;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.geom.Rectangle2D;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;

class LineNumbersTest {
    private static final Rectangle2D AREA = new Rectangle2D.Double(0, 0, 1000, 300);

    @Test
    void numbersOfLinesThatLieOnOneAnotherStandApartAndInsideThePicture() {
        // Ten lines of one course, and digits of 60 by 70 pixels, as at 300 %.
        List<List<Rectangle2D>> candidates = new ArrayList<>();
        for (int line = 0; line < 10; line++) {
            List<Rectangle2D> along = new ArrayList<>();
            for (int x = 990; x >= 0; x -= 10) {
                along.add(new Rectangle2D.Double(x - 30, 100 + 0.01 * x, 60, 70));
            }
            candidates.add(along);
        }
        List<Optional<Rectangle2D>> places = LineNumbers.choose(candidates, AREA);
        for (int i = 0; i < places.size(); i++) {
            Rectangle2D place = places.get(i).orElseThrow();
            assertTrue(AREA.contains(place), i + " at " + place);
            for (int j = 0; j < i; j++) {
                assertFalse(place.intersects(places.get(j).orElseThrow()), i + " over " + j);
            }
        }
    }

    @Test
    void aLineOutsideThePictureHasNoNumberAndWhereThereIsNoRoomTheLeastIsCovered() {
        Rectangle2D one = new Rectangle2D.Double(10, 10, 20, 20);
        Rectangle2D half = new Rectangle2D.Double(20, 10, 20, 20);
        assertEquals(
                List.of(Optional.of(one), Optional.empty(), Optional.of(half)),
                LineNumbers.choose(
                        List.of(List.of(one), List.of(new Rectangle2D.Double(990, 10, 20, 20)), List.of(one, half)),
                        AREA));
    }
}
