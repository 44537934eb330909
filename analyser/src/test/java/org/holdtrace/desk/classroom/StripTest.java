package org.holdtrace.desk.classroom;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.geom.Path2D;
import org.junit.jupiter.api.Test;

class StripTest {
    private static final Strip.Scale PLAIN = new Strip.Scale() {
        @Override
        public double x(double timeS) {
            return timeS;
        }

        @Override
        public double y(double pressurePa) {
            return pressurePa;
        }
    };

    @Test
    void aSpikeOfOneSampleIsDrawnHoweverManySamplesShareAColumn() {
        Strip strip = new Strip();
        for (int i = 0; i < 860 * 60; i++) {
            strip.accept(i / 860.0, i == 20_000 ? 90 : 50);
        }
        assertEquals(90, strip.highestPa(60));
        assertEquals(90, strip.path(60, 100, 1, PLAIN).getBounds2D().getMaxY());
        assertEquals(50, strip.highestPa(10), "it has fallen off the last ten seconds");
    }

    @Test
    void theOldestFallsOffAndALongSilenceLeavesNothing() {
        Strip strip = new Strip();
        strip.accept(0, 7);
        strip.accept(299, 5);
        assertEquals(7, strip.highestPa(300));
        strip.accept(301, 5);
        assertEquals(5, strip.highestPa(300));
        strip.accept(100_000, 3);
        assertEquals(3, strip.highestPa(300));
    }

    @Test
    void aGapBreaksTheLine() {
        Strip apart = new Strip();
        for (int i = 0; i < 100; i++) {
            apart.accept(i * 0.01, 5);
        }
        for (int i = 0; i < 100; i++) {
            apart.accept(5 + i * 0.01, 5);
        }
        Path2D path = apart.path(10, 1000, 0.5, PLAIN);
        int moves = 0;
        for (var each = path.getPathIterator(null); !each.isDone(); each.next()) {
            moves += each.currentSegment(new double[6]) == java.awt.geom.PathIterator.SEG_MOVETO ? 1 : 0;
        }
        assertEquals(2, moves);
        assertTrue(apart.path(10, 1000, 10, PLAIN).getBounds2D().getWidth() > 5);
    }
}
