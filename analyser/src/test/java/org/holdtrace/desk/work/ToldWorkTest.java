package org.holdtrace.desk.work;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CountDownLatch;
import javax.swing.SwingUtilities;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

@Timeout(60)
class ToldWorkTest {
    /** Tells thrice, and ends when all of it is told or somebody stops it. */
    private static final class Telling extends ToldWork<Void> {
        /** What was heard on the event thread, and used there only. */
        private final List<String> heard = new ArrayList<>();

        private final CountDownLatch allTold = new CountDownLatch(1);
        private final CountDownLatch ended = new CountDownLatch(1);
        private final boolean stopsAtFirst;

        Telling(boolean stopsAtFirst) {
            this.stopsAtFirst = stopsAtFirst;
        }

        @Override
        protected Void doInBackground() throws InterruptedException {
            publish(() -> {
                heard.add("first");
                if (stopsAtFirst) {
                    cancel(true);
                }
            });
            publish(() -> heard.add("second"));
            publish(() -> heard.add("third"));
            allTold.countDown();
            // Longer than any news takes, so that it is not over by itself while somebody stops it.
            if (stopsAtFirst) {
                Thread.sleep(30_000);
            }
            return null;
        }

        @Override
        protected void ended() {
            heard.add("ended");
            ended.countDown();
        }
    }

    @Test
    void whatWasOnItsWayWhenItWasStoppedIsNotToldAfterItsEnd() throws Exception {
        Telling work = new Telling(true);
        // The event thread is kept until all three are on their way to it.
        SwingUtilities.invokeAndWait(() -> {
            work.execute();
            try {
                work.allTold.await();
            } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
            }
        });
        work.ended.await();
        assertEquals(List.of("first", "ended"), heardSoFar(work));
    }

    @Test
    void allThatIsToldIsHeardBeforeTheEndWhereNobodyStopsIt() throws Exception {
        Telling work = new Telling(false);
        work.execute();
        work.ended.await();
        assertEquals(List.of("first", "second", "third", "ended"), heardSoFar(work));
    }

    /** Asked on the event thread, after the event that the end fell in. */
    private static List<String> heardSoFar(Telling work) throws Exception {
        List<String> heard = new ArrayList<>();
        SwingUtilities.invokeAndWait(() -> heard.addAll(work.heard));
        return heard;
    }
}
