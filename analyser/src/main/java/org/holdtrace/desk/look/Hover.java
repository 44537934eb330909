package org.holdtrace.desk.look;

/** Texts shown on hover. */
public final class Hover {
    private Hover() {}

    /** {@code text} in lines short enough to read, as Swing's tooltips take it. */
    public static String html(String text) {
        return html(text, 300);
    }

    /** {@code text} in lines of {@code width}, in the pixels of Swing's HTML, which are 1.3 of the screen's. */
    public static String html(String text, int width) {
        return "<html><body style='width: " + width + "px'>"
                + text.replace("&", "&amp;").replace("<", "&lt;").replace("\n", "<br>") + "</body></html>";
    }
}
