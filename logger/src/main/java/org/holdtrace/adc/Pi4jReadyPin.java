package org.holdtrace.adc;

import com.pi4j.library.gpiod.internal.GpioDContext;
import com.pi4j.library.gpiod.internal.GpioLine;
import com.pi4j.library.gpiod.internal.GpioLineEvent;
import com.pi4j.library.gpiod.internal.LineRequestFlag;

/**
 * An input for the ready pin. The pull-up is switched on: the converter's output only pulls down.
 *
 * <p>By the library under Pi4J's inputs, not by them: an input of Pi4J asks for both edges, and of those the kernel says
 * which it was by the level it finds when it comes to look. The pulse is 8 µs long and over by then, so each edge is
 * called rising, and Pi4J passes on changes only: after the first it is silent for ever. Falling edges alone need no look.
 */
final class Pi4jReadyPin implements ReadyPin {
    private final GpioLine line;
    private final GpioLineEvent event;
    private boolean listens;

    /** The board's context must be there: it opens the chip of pins. */
    Pi4jReadyPin(int gpio) throws AdcException {
        try {
            line = GpioDContext.getInstance().getOrOpenLine(gpio);
            event = GpioDContext.getInstance().openLineEvent();
            listen();
        } catch (RuntimeException e) {
            throw new AdcException("ready pin GPIO " + gpio + ": " + e.getMessage(), e);
        }
    }

    private void listen() {
        line.requestFallingEdgeEventsFlags("holdtrace-ready", LineRequestFlag.BIAS_PULL_UP.getVal());
        listens = true;
    }

    @Override
    public boolean awaitEdge(long limitNs) {
        if (!listens) {
            return false;
        }
        try {
            if (!line.eventWait(limitNs)) {
                return false;
            }
            do {
                line.eventRead(event);
            } while (line.eventWait(0));
            return true;
        } catch (RuntimeException e) {
            return false;
        }
    }

    @Override
    public void restart() {
        try {
            close();
            listen();
        } catch (RuntimeException e) {
            // Reading goes on by the clock; the next restart tries again.
            listens = false;
        }
    }

    @Override
    public void close() {
        if (listens) {
            listens = false;
            GpioDContext.getInstance().closeLine(line);
        }
    }
}
