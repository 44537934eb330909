package org.holdtrace.desk.look;

import java.awt.Component;
import java.awt.Container;
import java.util.ArrayList;
import java.util.List;
import javax.swing.JTabbedPane;

/** A part of a window with figures that tell where they come from: on hover, and all together for the keyboard. */
public interface Sourced {
    /**
     * A figure.
     *
     * @param says what it is and how much, in words
     * @param origin which samples, which inputs, which method
     */
    record Figure(String says, String origin) {}

    /** The figures shown at the moment. */
    List<Figure> figures();

    /** The figures of all parts of {@code whole}, tabs that are not in front included, each with where it comes from. */
    static String wordsOf(Container whole) {
        List<Figure> figures = new ArrayList<>();
        collect(whole, figures);
        StringBuilder words = new StringBuilder();
        for (int i = 0; i < figures.size(); i++) {
            Figure each = figures.get(i);
            words.append(each.says()).append('\n');
            boolean last = i + 1 == figures.size();
            // What is said of several in a row is said once, below them.
            if (last || !figures.get(i + 1).origin().equals(each.origin())) {
                words.append("→ ").append(each.origin()).append(last ? "" : "\n\n");
            }
        }
        return words.toString();
    }

    private static void collect(Container whole, List<Figure> figures) {
        if (whole instanceof JTabbedPane tabs) {
            for (int i = 0; i < tabs.getTabCount(); i++) {
                take(tabs.getComponentAt(i), figures);
            }
            return;
        }
        for (Component each : whole.getComponents()) {
            if (each.isVisible()) {
                take(each, figures);
            }
        }
    }

    private static void take(Component part, List<Figure> figures) {
        if (part instanceof Sourced sourced) {
            figures.addAll(sourced.figures());
        } else if (part instanceof Container inner) {
            collect(inner, figures);
        }
    }
}
