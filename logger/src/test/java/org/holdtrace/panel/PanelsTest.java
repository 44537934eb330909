package org.holdtrace.panel;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.PipedInputStream;
import java.io.PipedOutputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalInt;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.TimeUnit;
import org.holdtrace.adc.AdcException;
import org.holdtrace.adc.PiBoard;
import org.holdtrace.panel.Panel.Press;
import org.junit.jupiter.api.Test;

class PanelsTest {
    private static final class Wires implements PanelWires {
        private final boolean[] lamps = new boolean[3];
        private final BlockingQueue<String> seen = new LinkedBlockingQueue<>();
        private volatile boolean down;
        private volatile boolean closed;

        @Override
        public void lamp(int number, boolean lit) {
            if (lamps[number] != lit) {
                lamps[number] = lit;
                seen.add((lit ? "+" : "-") + number);
            }
        }

        @Override
        public void beep(boolean on) {}

        @Override
        public boolean isDown() {
            return down;
        }

        @Override
        public void close() {
            closed = true;
        }
    }

    @Test
    void theLampsFollowTheSignAndTheButtonIsHeard() throws InterruptedException {
        Wires wires = new Wires();
        BlockingQueue<Press> presses = new LinkedBlockingQueue<>();
        try (GpioPanel panel = new GpioPanel(wires)) {
            panel.onPress(presses::add);
            panel.show(PanelSign.REST);
            assertEquals("+0", wires.seen.poll(2, TimeUnit.SECONDS));
            panel.show(PanelSign.RECORDING_FAULT);
            assertEquals("-0", wires.seen.poll(2, TimeUnit.SECONDS));
            assertEquals("+2", wires.seen.poll(2, TimeUnit.SECONDS));
            Thread.sleep(200);
            wires.down = true;
            Thread.sleep(300);
            wires.down = false;
            assertEquals(Press.SHORT, presses.poll(2, TimeUnit.SECONDS));
        }
        assertTrue(wires.closed);
    }

    @Test
    void absentPinsAreToldOfAndAreNoError() throws AdcException {
        List<String> said = new ArrayList<>();
        try (PiBoard board = PiBoard.open();
                Panel panel = GpioPanel.open(board, PanelPins.usual(), said::add)) {
            panel.show(PanelSign.ENOUGH);
        }
        if (!said.isEmpty()) {
            // On a computer without such pins, as most that build this.
            assertEquals(5, said.size(), said.toString());
            assertTrue(said.get(4).startsWith("panel: no button at GPIO 27: "), said.get(4));
        }
    }

    @Test
    void theTerminalSaysLampsAndWordsOnceForEachSign() {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        try (TerminalPanel panel = new TerminalPanel(
                new ByteArrayInputStream(new byte[0]), new PrintStream(out, true, StandardCharsets.UTF_8))) {
            panel.show(PanelSign.STALLED);
            panel.show(PanelSign.STALLED);
        }
        assertEquals(
                "panel: (*) (*) ( )  Pressure no longer rises although you pump. Keep the tempo for 20 strokes if you"
                        + " can, then stop: the leak takes all you pump.  [left and middle by turns, like a seesaw;"
                        + " one long beep, again every 10 s]",
                out.toString(StandardCharsets.UTF_8).strip());
    }

    @Test
    void enterIsAShortPressAndTheLetterALongOne() throws Exception {
        BlockingQueue<Press> presses = new LinkedBlockingQueue<>();
        try (PipedOutputStream keys = new PipedOutputStream();
                TerminalPanel panel = new TerminalPanel(
                        new PipedInputStream(keys), new PrintStream(new ByteArrayOutputStream(), true, "UTF-8"))) {
            panel.onPress(presses::add);
            keys.write("\nl\nx\n".getBytes(StandardCharsets.US_ASCII));
            keys.flush();
            assertEquals(Press.SHORT, presses.poll(3, TimeUnit.SECONDS));
            assertEquals(Press.LONG, presses.poll(3, TimeUnit.SECONDS));
        }
    }

    @Test
    void onePinCannotHaveTwoDuties() {
        OptionalInt pin = OptionalInt.of(17);
        OptionalInt none = OptionalInt.empty();
        assertThrows(IllegalArgumentException.class, () -> new PanelPins(pin, pin, none, none, none, true));
        assertThrows(
                IllegalArgumentException.class, () -> new PanelPins(OptionalInt.of(28), none, none, none, none, true));
    }
}
