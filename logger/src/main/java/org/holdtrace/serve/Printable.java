package org.holdtrace.serve;

/** Makes texts from the other end harmless in a journal. */
final class Printable {
    private static final int LONGEST = 120;

    private Printable() {}

    /** {@code text} on one line, control characters replaced, at most 120 characters. */
    static String line(String text) {
        StringBuilder line = new StringBuilder();
        for (int i = 0; i < text.length() && line.length() < LONGEST; i++) {
            char c = text.charAt(i);
            line.append(Character.isISOControl(c) ? '?' : c);
        }
        return line.toString();
    }
}
