package org.holdtrace.desk.look;

import java.util.ArrayList;
import java.util.List;

/** The keys that stand for one another: + is typed with Shift on some keyboards and has a key of its own on others. */
public final class Keys {
    private static final List<String> PLUS = List.of("PLUS", "EQUALS", "ADD", "shift EQUALS", "shift PLUS");
    private static final List<String> MINUS = List.of("MINUS", "SUBTRACT");

    private Keys() {}

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
