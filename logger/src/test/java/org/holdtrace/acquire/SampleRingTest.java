package org.holdtrace.acquire;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

class SampleRingTest {
    @Test
    void givesBackWhatWasPutInOrder() {
        SampleRing ring = new SampleRing(5);
        assertEquals(8, ring.capacity());
        List<String> got = new ArrayList<>();
        for (int round = 0; round < 10; round++) {
            for (int i = 0; i < 7; i++) {
                assertTrue(ring.put(i % 3, round * 100L + i, -i));
            }
            assertEquals(4, ring.drain((c, t, n) -> got.add(c + " " + t + " " + n), 4));
            assertEquals(3, ring.drain((c, t, n) -> got.add(c + " " + t + " " + n), 100));
            assertEquals(0, ring.drain((c, t, n) -> got.add("none"), 100));
        }
        assertEquals(70, got.size());
        assertEquals("1 904 -4", got.get(67));
    }

    @Test
    void aFullRingRefusesAndGoesOnWhenThereIsRoom() {
        SampleRing ring = new SampleRing(4);
        for (int i = 0; i < 4; i++) {
            assertTrue(ring.put(0, i, i));
        }
        assertFalse(ring.put(0, 4, 4));
        ring.drain((c, t, n) -> {}, 1);
        assertTrue(ring.put(0, 5, 5));
        assertFalse(ring.put(0, 6, 6));
    }

    @Test
    void twoThreadsLoseAndMixNothing() throws InterruptedException {
        SampleRing ring = new SampleRing(1024);
        int total = 2_000_000;
        Thread producer = new Thread(() -> {
            for (int i = 0; i < total; i++) {
                while (!ring.put(i & 7, 3L * i, i)) {
                    Thread.onSpinWait();
                }
            }
        });
        producer.start();
        int[] next = {0};
        boolean[] wrong = {false};
        while (next[0] < total && !wrong[0]) {
            ring.drain(
                    (c, t, n) -> {
                        wrong[0] |= n != next[0] || t != 3L * n || c != (n & 7);
                        next[0]++;
                    },
                    300);
        }
        producer.join();
        assertFalse(wrong[0], "at sample " + next[0]);
    }

    @Test
    void sizesThatMakeNoSenseAreRefused() {
        assertThrows(IllegalArgumentException.class, () -> new SampleRing(1));
        assertThrows(IllegalArgumentException.class, () -> new SampleRing((1 << 24) + 1));
    }
}
