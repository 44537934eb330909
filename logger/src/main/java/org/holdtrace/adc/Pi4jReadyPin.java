package org.holdtrace.adc;

import com.pi4j.io.gpio.digital.DigitalInput;
import com.pi4j.io.gpio.digital.DigitalState;
import com.pi4j.io.gpio.digital.DigitalStateChangeListener;
import com.pi4j.io.gpio.digital.PullResistance;
import java.util.concurrent.Semaphore;
import java.util.concurrent.TimeUnit;

/** An input for the ready pin, by Pi4J. The pull-up is switched on: the converter's output only pulls down. */
final class Pi4jReadyPin implements ReadyPin {
    private final PiBoard board;
    private final int gpio;
    private final Semaphore edges = new Semaphore(0);
    private final DigitalStateChangeListener listener;
    private DigitalInput input;

    Pi4jReadyPin(PiBoard board, int gpio) throws AdcException {
        this.board = board;
        this.gpio = gpio;
        listener = event -> {
            // The pulse is 8 µs long; its end would be a second edge of the same conversion.
            if (event.state() == DigitalState.LOW) {
                edges.release();
            }
        };
        try {
            input = open();
        } catch (RuntimeException e) {
            throw new AdcException("ready pin GPIO " + gpio + ": " + e.getMessage(), e);
        }
    }

    private DigitalInput open() {
        // Pi4J waits 10 ms for bouncing contacts unless told otherwise, and would hear nothing.
        DigitalInput opened = board.context()
                .create(DigitalInput.newConfigBuilder(board.context())
                        .id(board.newId("ready"))
                        .address(gpio)
                        .pull(PullResistance.PULL_UP)
                        .debounce(0L)
                        .build());
        opened.addListener(listener);
        return opened;
    }

    @Override
    public boolean awaitEdge(long limitNs) {
        try {
            if (!edges.tryAcquire(limitNs, TimeUnit.NANOSECONDS)) {
                return false;
            }
            edges.drainPermits();
            return true;
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            return false;
        }
    }

    @Override
    public void restart() {
        try {
            close();
            input = open();
        } catch (RuntimeException e) {
            // Reading goes on by the clock; the next restart tries again.
            input = null;
        }
        edges.drainPermits();
    }

    @Override
    public void close() {
        if (input != null) {
            DigitalInput before = input;
            input = null;
            before.removeListener(listener);
            board.context().shutdown(before.id());
        }
    }
}
