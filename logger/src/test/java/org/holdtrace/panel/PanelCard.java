package org.holdtrace.panel;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/** Draws and writes the card that hangs beside the panel, from the table of patterns. Lengths in mm of a page of A4. */
final class PanelCard {
    private static final double WIDTH = 210;
    private static final double HEIGHT = 297;
    private static final double MARGIN = 12;
    private static final double TOP = 50;
    private static final double ROW = 22.4;
    private static final double SLOT = 2.7;
    private static final double TRACK = 3.4;
    private static final double TRACKS_AT = MARGIN + 9;
    private static final double TEXT_AT = TRACKS_AT + SLOT * PanelPattern.SLOTS + 6;
    private static final int LINE_LETTERS = 66;
    private static final String[] TRACK_NAMES = {"left", "middle", "right", "beep"};

    static final List<String> FIRST = List.of(
            "The lamps never show that a line is safe. Look at a gauge, and release pressure by the machine maker's procedure.",
            "Energy isolated and locked out, raised parts secured. No hand near a suspected leak: oil through the skin is a"
                    + " surgical emergency.",
            "Every hose, adapter and plug rated above what the hand pump can reach. Local codes and licensed practice come"
                    + " first.");

    static final List<String> BUTTON = List.of(
            "Short press: begin recording; while recording: end the session.",
            "Held for 2 seconds, line at rest and without pressure: take the present reading as zero.");

    private final StringBuilder out = new StringBuilder();

    private PanelCard() {}

    /** The card as Markdown. */
    static String markdown() {
        StringBuilder text = new StringBuilder("# Panel card\n\n");
        text.append("Made from the table of patterns in the program (`PanelPattern`); the same as one page to print:"
                + " [panel-card.svg](panel-card.svg).\n\n");
        for (String line : FIRST) {
            text.append("* ").append(line).append('\n');
        }
        text.append(
                "\nA cycle lasts 2 seconds; `#` is lit, `.` is dark, one sign is an eighth of a second. All lamps dark:"
                        + " no power, or the program is not running.\n\n");
        text.append("| lamps | beeper | what it says | what to do |\n|---|---|---|---|\n");
        for (PanelSign sign : PanelSign.values()) {
            PanelPattern pattern = PanelPattern.of(sign);
            text.append("| ").append(pattern.looks());
            for (int lamp = 0; lamp < 3; lamp++) {
                text.append("<br>`").append(pattern.lamp(lamp)).append("` ").append(TRACK_NAMES[lamp]);
            }
            text.append(" | ")
                    .append(pattern.sounds().isEmpty() ? "silent" : pattern.sounds())
                    .append(" | **")
                    .append(pattern.meaning())
                    .append("** | ")
                    .append(pattern.todo())
                    .append(" |\n");
        }
        text.append("\nThe button\n\n");
        for (String line : BUTTON) {
            text.append("* ").append(line).append('\n');
        }
        return text.toString();
    }

    /** The card as a picture of one page. */
    static String svg() {
        return new PanelCard().draw();
    }

    private String draw() {
        out.append(String.format(
                Locale.ROOT,
                "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"%1$.0fmm\" height=\"%2$.0fmm\" viewBox=\"0 0 %1$.0f"
                        + " %2$.0f\" font-family=\"DejaVu Sans, Verdana, sans-serif\">%n",
                WIDTH,
                HEIGHT));
        rectangle(0, 0, WIDTH, HEIGHT, "#fff");
        text(MARGIN, 17, 6.2, "bold", "Holdtrace logger: what the lamps say");
        double y = 24;
        for (String line : FIRST) {
            for (String part : wrapped(line, 125)) {
                text(MARGIN, y, 2.7, "normal", part);
                y += 3.7;
            }
        }
        text(MARGIN, TOP - 1.5, 2.5, "normal", "Black: on. One row: 2 s, then anew.");
        text(TEXT_AT, TOP - 1.5, 2.5, "normal", "All lamps dark: no power, or the program is not running.");
        PanelSign[] signs = PanelSign.values();
        for (int i = 0; i < signs.length; i++) {
            row(TOP + i * ROW, PanelPattern.of(signs[i]));
        }
        double below = TOP + signs.length * ROW + 5;
        line(below - 5);
        text(MARGIN, below, 3, "bold", "The button");
        for (int i = 0; i < BUTTON.size(); i++) {
            text(MARGIN + 26, below + 4.6 * i, 3, "normal", BUTTON.get(i));
        }
        return out.append("</svg>\n").toString();
    }

    private void row(double y, PanelPattern pattern) {
        line(y);
        for (int track = 0; track < 4; track++) {
            String slots = track < 3 ? pattern.lamp(track) : pattern.beep();
            double at = y + 2.4 + track * (TRACK + 1.2);
            text(MARGIN, at + TRACK - 0.7, 2.3, "normal", TRACK_NAMES[track]);
            rectangle(TRACKS_AT, at, SLOT * PanelPattern.SLOTS, TRACK, track < 3 ? "#e4e4e4" : "#f4f4f4");
            for (int slot = 0; slot < PanelPattern.SLOTS; slot++) {
                if (slots.charAt(slot) == '#') {
                    double height = track < 3 ? TRACK : TRACK / 2;
                    // A hair wider than a slot, so that neighbours show no seam.
                    rectangle(TRACKS_AT + slot * SLOT, at + (TRACK - height) / 2, SLOT + 0.02, height, "#000");
                }
            }
        }
        double at = y + 5.2;
        text(TEXT_AT, at, 3.6, "bold", pattern.meaning());
        for (String part : wrapped(pattern.todo(), LINE_LETTERS)) {
            at += 4.4;
            text(TEXT_AT, at, 3.2, "normal", part);
        }
        String looks = pattern.looks() + (pattern.sounds().isEmpty() ? "" : "; " + pattern.sounds());
        for (String part : wrapped(looks, LINE_LETTERS + 12)) {
            at += 4;
            text(TEXT_AT, at, 2.6, "normal", part);
        }
    }

    private static List<String> wrapped(String text, int letters) {
        List<String> lines = new ArrayList<>();
        StringBuilder line = new StringBuilder();
        for (String word : text.split(" ", -1)) {
            if (!line.isEmpty() && line.length() + 1 + word.length() > letters) {
                lines.add(line.toString());
                line.setLength(0);
            }
            line.append(line.isEmpty() ? "" : " ").append(word);
        }
        lines.add(line.toString());
        return lines;
    }

    private void line(double y) {
        rectangle(MARGIN, y, WIDTH - 2 * MARGIN, 0.25, "#000");
    }

    private void rectangle(double x, double y, double width, double height, String colour) {
        out.append(String.format(
                Locale.ROOT,
                "<rect x=\"%.2f\" y=\"%.2f\" width=\"%.2f\" height=\"%.2f\" fill=\"%s\"/>%n",
                x,
                y,
                width,
                height,
                colour));
    }

    private void text(double x, double y, double size, String weight, String words) {
        out.append(String.format(
                Locale.ROOT,
                "<text x=\"%.2f\" y=\"%.2f\" font-size=\"%.1f\" font-weight=\"%s\">%s</text>%n",
                x,
                y,
                size,
                weight,
                words.replace("&", "&amp;").replace("<", "&lt;")));
    }
}
