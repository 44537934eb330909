package org.holdtrace.chart;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;

import org.junit.jupiter.api.Test;

class PhaseBandsTest {
    @Test
    void wordsThatDoNotTouchStayWhereTheyBelong() {
        assertArrayEquals(
                new double[] {50, 200}, PhaseBands.spread(new double[] {50, 200}, new double[] {40, 40}, 0, 300));
    }

    @Test
    void wordsThatWouldTouchAreMovedApartInTheirOrder() {
        assertArrayEquals(
                new double[] {50, 90}, PhaseBands.spread(new double[] {50, 60}, new double[] {40, 40}, 0, 300));
    }

    @Test
    void theLastWordStaysInsideAndPushesTheOthersBack() {
        assertArrayEquals(
                new double[] {240, 280}, PhaseBands.spread(new double[] {290, 299}, new double[] {40, 40}, 0, 300));
    }
}
