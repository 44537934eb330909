package org.holdtrace.desk.look;

import java.util.ArrayList;
import java.util.List;
import javax.swing.KeyStroke;

/**
 * The keys that stand for one another: + is typed with Shift on some keyboards and has a key of its own on others; on a
 * Mac, Cmd does what Ctrl does elsewhere (Ctrl with an arrow goes to another desktop there).
 */
public final class Keys {
    private static final List<String> PLUS = List.of("PLUS", "EQUALS", "ADD", "shift EQUALS", "shift PLUS");
    private static final List<String> MINUS = List.of("MINUS", "SUBTRACT");

    private static final boolean MAC = isMac(System.getProperty("os.name", ""));

    private Keys() {}

    static boolean isMac(String system) {
        return system.startsWith("Mac");
    }

    /** The key of {@code stroke}, as {@link KeyStroke#getKeyStroke(String)} reads it, on this computer. */
    public static KeyStroke of(String stroke) {
        return of(stroke, MAC);
    }

    static KeyStroke of(String stroke, boolean mac) {
        return KeyStroke.getKeyStroke(mac ? stroke.replace("ctrl ", "meta ") : stroke);
    }

    /** {@code text} that names keys, with the names they have on this computer. */
    public static String named(String text) {
        return named(text, MAC);
    }

    static String named(String text, boolean mac) {
        return mac ? text.replace("Ctrl+", "Cmd+").replace("Alt+", "Option+") : text;
    }

    /** {@code stroke}, as {@link javax.swing.KeyStroke#getKeyStroke(String)} reads it, and those that mean the same. */
    public static List<String> same(String stroke) {
        int cut = stroke.lastIndexOf(' ') + 1;
        String modifiers = stroke.substring(0, cut);
        List<String> keys = switch (stroke.substring(cut)) {
            case "PLUS" -> PLUS;
            case "MINUS" -> MINUS;
            default -> List.of(stroke.substring(cut));
        };
        List<String> all = new ArrayList<>();
        for (String key : keys) {
            all.add(modifiers + key);
        }
        return all;
    }
}
