package org.holdtrace.command;

/** Makes words that came over a link harmless on a terminal. */
final class PlainText {
    private PlainText() {}

    /** {@code text} on one line, each control character replaced. */
    static String of(String text) {
        StringBuilder plain = new StringBuilder(text.length());
        for (int i = 0; i < text.length(); i++) {
            char c = text.charAt(i);
            plain.append(Character.isISOControl(c) ? '?' : c);
        }
        return plain.toString();
    }
}
