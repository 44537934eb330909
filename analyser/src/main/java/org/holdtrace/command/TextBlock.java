package org.holdtrace.command;

/** Lines of at most 100 columns: a label in a narrow column, the text beside it, wrapped under itself. */
final class TextBlock {
    static final int WIDTH = 100;
    private static final int LABEL_COLUMN = 14;
    private static final String[] UNITS = {"%", "cm³/min", "cm³/bar", "bar"};

    private final StringBuilder text = new StringBuilder();

    /** Adds a heading from column one. */
    void heading(String heading) {
        paragraph("", heading);
    }

    /** Adds {@code label} and {@code words} beside it. */
    void entry(String label, String words) {
        String head = "  " + label;
        paragraph(head + " ".repeat(LABEL_COLUMN - head.length()), words);
    }

    /** Adds {@code words} after {@code head}, wrapped between words and indented as far as the head is long. */
    void paragraph(String head, String words) {
        String indent = " ".repeat(head.length());
        StringBuilder line = new StringBuilder(head);
        boolean empty = true;
        for (String word : kept(words).split(" ", -1)) {
            if (!empty && line.length() + 1 + word.length() > WIDTH) {
                text.append(line).append(System.lineSeparator());
                line.setLength(0);
                line.append(indent);
                empty = true;
            }
            line.append(empty ? "" : " ").append(word);
            empty = false;
        }
        text.append(line).append(System.lineSeparator());
    }

    /** A number is not parted from its unit. */
    private static String kept(String words) {
        String kept = words;
        for (String unit : UNITS) {
            kept = kept.replace(" " + unit, "\u00a0" + unit);
        }
        return kept;
    }

    /** The lines so far. Words held together by a no-break space were not parted; it prints as a plain one. */
    String text() {
        return text.toString().replace('\u00a0', ' ');
    }
}
