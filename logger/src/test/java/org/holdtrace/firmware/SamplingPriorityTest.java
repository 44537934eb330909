package org.holdtrace.firmware;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;

class SamplingPriorityTest {
    private static final int ORDINARY = 0;
    private static final int FIFO = 1;

    /** A system that gives priorities up to a limit. */
    private static final class FakeC implements SamplingPriority.LibC {
        private int policy;
        private int priority;
        private final int limit;

        FakeC(int policy, int priority, int limit) {
            this.policy = policy;
            this.priority = priority;
            this.limit = limit;
        }

        @Override
        public int sched_getscheduler(int thread) {
            return policy;
        }

        @Override
        public int sched_getparam(int thread, int[] into) {
            into[0] = priority;
            return 0;
        }

        @Override
        public int sched_setscheduler(int thread, int wanted, int[] from) {
            if (from[0] > limit) {
                return -1;
            }
            policy = wanted;
            priority = from[0];
            return 0;
        }
    }

    @Test
    void theThreadThatSamplesStandsAboveTheOthersOfARealTimeProgram() {
        FakeC c = new FakeC(FIFO, 40, 50);
        assertEquals(50, SamplingPriority.lift(c));
        assertEquals(50, c.priority);
        assertEquals(FIFO, c.policy);
    }

    @Test
    void aProgramThatIsNotRealTimeIsLeftAsItIs() {
        FakeC c = new FakeC(ORDINARY, 0, 99);
        assertEquals(0, SamplingPriority.lift(c));
        assertEquals(ORDINARY, c.policy);
    }

    @Test
    void whereALimitForbidsItThePriorityStaysWhatItWas() {
        FakeC c = new FakeC(FIFO, 40, 40);
        assertEquals(40, SamplingPriority.lift(c));
        assertEquals(40, c.priority);
    }

    /** A build runs without real-time priority, or else with one: either way the call itself must work. */
    @Test
    void theSystemsOwnLibraryIsAskedWithoutAnError() throws InterruptedException {
        int[] now = {-1};
        Thread thread = new Thread(() -> now[0] = SamplingPriority.lift());
        thread.start();
        thread.join();
        assertEquals(true, now[0] >= 0 && now[0] <= 99, "priority " + now[0]);
    }
}
