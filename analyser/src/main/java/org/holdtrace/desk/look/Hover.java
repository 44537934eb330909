package org.holdtrace.desk.look;

/** Texts shown on hover. */
public final class Hover {
    private Hover() {}

    /** {@code text} in lines short enough to read, as Swing's tooltips take it. */
    public static String html(String text) {
        return "<html><body style='width: 300px'>"
                + text.replace("&", "&amp;").replace("<", "&lt;").replace("\n", "<br>") + "</body></html>";
    }
}
