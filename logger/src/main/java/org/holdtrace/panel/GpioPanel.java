package org.holdtrace.panel;

import java.util.Optional;
import java.util.function.Consumer;
import org.holdtrace.adc.PiBoard;

/**
 * The panel on the computer's pins. A thread of its own plays the patterns and looks at the button; it does not wait for
 * edges, since what waits for them may die unnoticed.
 */
public final class GpioPanel implements Panel {
    private static final long LOOK_NS = 20_000_000;
    private static final long NS_PER_MS = 1_000_000;

    private final PanelWires wires;
    private final Thread thread;
    private final Button button = new Button();
    private volatile Consumer<Press> listener = press -> {};
    private volatile Shown shown = new Shown(PanelSign.READY, System.nanoTime());
    private volatile boolean open = true;

    private record Shown(PanelSign sign, long sinceNs) {}

    GpioPanel(PanelWires wires) {
        this.wires = wires;
        thread = new Thread(this::run, "panel");
        thread.setDaemon(true);
        thread.start();
    }

    /**
     * The panel on these pins. Those that are not there, or in use elsewhere, are told of and do nothing.
     *
     * @param says hears what is absent, in words
     */
    public static Panel open(PiBoard board, PanelPins pins, Consumer<String> says) {
        return new GpioPanel(new Pi4jWires(board, pins, says));
    }

    @Override
    public void show(PanelSign sign) {
        if (shown.sign() != sign) {
            shown = new Shown(sign, System.nanoTime());
        }
    }

    @Override
    public void onPress(Consumer<Press> to) {
        listener = to;
    }

    private void run() {
        while (open) {
            long now = System.nanoTime();
            step(now);
            try {
                Thread.sleep(LOOK_NS / NS_PER_MS);
            } catch (InterruptedException e) {
                break;
            }
        }
        wires.close();
    }

    /** One look at the button and the table. */
    private void step(long nowNs) {
        Shown now = shown;
        PanelPattern pattern = PanelPattern.of(now.sign());
        long since = Math.max(0, nowNs - now.sinceNs());
        for (int lamp = 0; lamp < 3; lamp++) {
            wires.lamp(lamp, pattern.isLit(lamp, since));
        }
        wires.beep(pattern.beeps(since));
        Optional<Press> press = button.look(nowNs, wires.isDown());
        press.ifPresent(listener);
    }

    @Override
    public void close() {
        open = false;
        try {
            thread.join(1000);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }
}
