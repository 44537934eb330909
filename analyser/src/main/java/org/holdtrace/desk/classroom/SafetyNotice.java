package org.holdtrace.desk.classroom;

import java.awt.Component;
import javax.swing.JOptionPane;
import javax.swing.JScrollPane;
import javax.swing.JTextArea;
import org.holdtrace.wording.SafetyText;

/** Shows the usual cautions and takes a deliberate "I have read them"; once in a run of the program. */
public final class SafetyNotice implements SafetyGate {
    private static final int ROWS = 20;
    private static final int COLUMNS = 64;

    private boolean read;

    @Override
    public boolean confirmed(Component over) {
        if (!read) {
            JTextArea text = new JTextArea(text(), ROWS, COLUMNS);
            text.setName("cautions");
            text.getAccessibleContext().setAccessibleName("cautions before a test on a real line");
            text.setEditable(false);
            text.setLineWrap(true);
            text.setWrapStyleWord(true);
            text.setCaretPosition(0);
            Object[] choices = {"I have read this and it is done", "Not now"};
            read = JOptionPane.showOptionDialog(
                            over,
                            new JScrollPane(text),
                            "Before a test on a real line",
                            JOptionPane.DEFAULT_OPTION,
                            JOptionPane.WARNING_MESSAGE,
                            null,
                            choices,
                            choices[1])
                    == 0;
        }
        return read;
    }

    /** The cautions as they are shown. */
    static String text() {
        StringBuilder all = new StringBuilder(SafetyText.FIRST).append("\n\n");
        for (String rule : SafetyText.RULES) {
            all.append("•  ").append(rule).append('\n');
        }
        return all.append('\n').append(SafetyText.LAST).toString();
    }
}
