package org.holdtrace.desk;

import java.awt.BorderLayout;
import java.awt.FlowLayout;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Consumer;
import javax.swing.BorderFactory;
import javax.swing.JButton;
import javax.swing.JLabel;
import javax.swing.JPanel;
import javax.swing.JProgressBar;

/** The line at the foot: what is being done, how far it is, a way to stop it, and what was refused. */
final class StatusLine extends JPanel {
    private static final long serialVersionUID = 1L;

    private final JLabel words = new JLabel(" ");
    private final JProgressBar bar = new JProgressBar();
    private final JButton cancel = new JButton("Stop");
    private final JButton refused = new JButton();

    private final List<String> sentences = new ArrayList<>();

    StatusLine(Runnable onCancel, Consumer<List<String>> onRefused) {
        super(new BorderLayout(10, 0));
        setBorder(BorderFactory.createEmptyBorder(4, 10, 4, 10));
        words.setName("status");
        bar.setName("progress");
        bar.getAccessibleContext().setAccessibleName("progress");
        cancel.setName("stop");
        cancel.addActionListener(event -> onCancel.run());
        refused.setName("refused");
        refused.addActionListener(event -> onRefused.accept(List.copyOf(sentences)));
        JPanel trailing = new JPanel(new FlowLayout(FlowLayout.TRAILING, 8, 0));
        trailing.add(bar);
        trailing.add(cancel);
        trailing.add(refused);
        add(words, BorderLayout.CENTER);
        add(trailing, BorderLayout.EAST);
        bar.setVisible(false);
        cancel.setVisible(false);
        refused.setVisible(false);
    }

    /** Item {@code number} of {@code count} is being worked on; count 0 where nobody knows how much there is to do. */
    void working(String what, int number, int count) {
        say(what);
        bar.setIndeterminate(count == 0);
        bar.setMaximum(count);
        bar.setValue(number - 1);
        bar.setVisible(true);
        cancel.setVisible(true);
    }

    /** Says something while whatever is being done goes on. */
    void say(String what) {
        words.setText(what);
        // There may not be room for all of it.
        words.setToolTipText(what.isBlank() ? null : what);
    }

    /** Nothing is being done any more. */
    void idle(String what) {
        say(what);
        bar.setVisible(false);
        cancel.setVisible(false);
    }

    /** Now the {@code number}th of {@code count} files is read. */
    void reading(String name, int number, int count) {
        working("Reading " + name + " (" + number + " of " + count + ")", number, count);
    }

    /** One more was refused, for a reason in words. */
    void refuse(String sentence) {
        sentences.add(sentence);
        showRefused();
    }

    /** What was refused before is over. */
    void nothingRefused() {
        sentences.clear();
        showRefused();
    }

    private void showRefused() {
        int count = sentences.size();
        refused.setText(count == 1 ? "1 was refused: why?" : count + " were refused: why?");
        refused.setVisible(count > 0);
    }
}
