package org.holdtrace.desk.look;

import java.awt.Color;
import java.awt.Font;
import java.awt.KeyboardFocusManager;
import java.awt.dnd.DropTarget;
import java.util.List;
import java.util.Set;
import javax.swing.BorderFactory;
import javax.swing.JTextArea;
import javax.swing.text.DefaultCaret;

/** Words that wrap, can be selected and copied, and are read out by a screen reader. */
public final class Prose extends JTextArea implements Sourced {
    private static final long serialVersionUID = 1L;

    private String origin = "";

    public Prose(String name, Font font) {
        setName(name);
        getAccessibleContext().setAccessibleName(name);
        setEditable(false);
        setLineWrap(true);
        setWrapStyleWord(true);
        setOpaque(false);
        setBorder(BorderFactory.createEmptyBorder(1, 2, 1, 2));
        setFont(font);
        // New words must not scroll what they stand in.
        DefaultCaret caret = new DefaultCaret();
        caret.setUpdatePolicy(DefaultCaret.NEVER_UPDATE);
        setCaret(caret);
        // Nothing in it can be turned over: a page up or down is for what it stands in.
        for (String key : new String[] {"PAGE_UP", "PAGE_DOWN"}) {
            getInputMap().put(javax.swing.KeyStroke.getKeyStroke(key), "none");
        }
        // Tab goes on to the next control, as everywhere but where one writes.
        setFocusTraversalKeys(
                KeyboardFocusManager.FORWARD_TRAVERSAL_KEYS, Set.of(javax.swing.KeyStroke.getKeyStroke("pressed TAB")));
        setFocusTraversalKeys(
                KeyboardFocusManager.BACKWARD_TRAVERSAL_KEYS,
                Set.of(javax.swing.KeyStroke.getKeyStroke("shift pressed TAB")));
    }

    /** What is dropped on words is for the window they stand in. */
    @Override
    public void setDropTarget(DropTarget target) {
        super.setDropTarget(null);
    }

    /** Says {@code words} in {@code color}. */
    public void say(String words, Color color) {
        setForeground(color);
        if (!words.equals(getText())) {
            setText(words);
        }
        getAccessibleContext().setAccessibleDescription(words);
    }

    /** Says {@code words}, and on hover where they come from. */
    public void say(String words, Color color, String origin) {
        say(words, color);
        this.origin = origin;
        setToolTipText(Hover.html(origin));
    }

    @Override
    public List<Figure> figures() {
        return origin.isEmpty() || getText().isEmpty() ? List.of() : List.of(new Figure(getText(), origin));
    }
}
