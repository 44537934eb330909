package org.holdtrace.link;

/** Names of session files as they may travel over a link: never a path, whoever sends it. */
public final class SessionNames {
    private static final String ENDING = ".hold";
    private static final int LONGEST = 128;
    private static final String SIGNS = "._-";

    private SessionNames() {}

    /**
     * Whether {@code name} is a plain file name: ASCII letters, digits, {@code . _ -}, not beginning with a point or a
     * dash, ending in {@code .hold}, at most 128 characters.
     */
    public static boolean isPlain(String name) {
        if (name.length() > LONGEST || name.length() <= ENDING.length() || !name.endsWith(ENDING)) {
            return false;
        }
        if (name.charAt(0) == '.' || name.charAt(0) == '-') {
            return false;
        }
        for (int i = 0; i < name.length(); i++) {
            char c = name.charAt(i);
            boolean letterOrDigit = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9');
            if (!letterOrDigit && SIGNS.indexOf(c) < 0) {
                return false;
            }
        }
        return true;
    }
}
