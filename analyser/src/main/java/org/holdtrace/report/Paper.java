package org.holdtrace.report;

/** The paper a report is set for. */
public enum Paper {
    A4("A4", 174),
    LETTER("letter", 180);

    private final String cssName;
    private final int textWidthMm;

    Paper(String cssName, int textWidthMm) {
        this.cssName = cssName;
        this.textWidthMm = textWidthMm;
    }

    /** Its name in a style sheet. */
    String cssName() {
        return cssName;
    }

    /** Width between the margins, mm. */
    int textWidthMm() {
        return textWidthMm;
    }
}
