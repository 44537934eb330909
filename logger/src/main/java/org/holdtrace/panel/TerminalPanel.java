package org.holdtrace.panel;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.PrintStream;
import java.nio.charset.Charset;
import java.util.Locale;
import java.util.function.Consumer;

/**
 * The panel as text, for any computer: a line for each sign, with which lamps it lights, how, and what to do. The button is
 * the Enter key; {@code l} and Enter is a long press.
 */
public final class TerminalPanel implements Panel {
    private final PrintStream out;
    private volatile Consumer<Press> listener = press -> {};
    private PanelSign shown;

    /** A panel that writes to {@code out} and is pressed from {@code in}. */
    public TerminalPanel(InputStream in, PrintStream out) {
        this.out = out;
        Thread keys = new Thread(() -> listen(in), "panel keys");
        keys.setDaemon(true);
        keys.start();
    }

    private void listen(InputStream in) {
        // The console's own character set: what comes is one letter or none.
        try (BufferedReader lines = new BufferedReader(new InputStreamReader(in, Charset.defaultCharset()))) {
            for (String line = lines.readLine(); line != null; line = lines.readLine()) {
                String word = line.strip().toLowerCase(Locale.ROOT);
                if (word.isEmpty()) {
                    listener.accept(Press.SHORT);
                } else if (word.equals("l")) {
                    listener.accept(Press.LONG);
                } else {
                    out.println("panel: Enter is a short press, l and Enter a long one");
                }
            }
        } catch (IOException e) {
            out.println("panel: the keyboard is gone: " + e.getMessage());
        }
    }

    @Override
    public synchronized void show(PanelSign sign) {
        if (sign == shown) {
            return;
        }
        shown = sign;
        out.println(line(sign));
    }

    /** A sign as a line: the lamps, how they light, what it means, what to do. */
    static String line(PanelSign sign) {
        PanelPattern pattern = PanelPattern.of(sign);
        StringBuilder lamps = new StringBuilder("panel:");
        for (int lamp = 0; lamp < 3; lamp++) {
            lamps.append(pattern.lamp(lamp).indexOf('#') >= 0 ? " (*)" : " ( )");
        }
        lamps.append("  ").append(pattern.meaning()).append(' ').append(pattern.todo());
        lamps.append("  [").append(pattern.looks());
        if (!pattern.sounds().isEmpty()) {
            lamps.append("; ").append(pattern.sounds());
        }
        return lamps.append(']').toString();
    }

    @Override
    public void onPress(Consumer<Press> to) {
        listener = to;
    }

    @Override
    public void close() {
        // The keyboard is not ours to close.
        listener = press -> {};
    }
}
