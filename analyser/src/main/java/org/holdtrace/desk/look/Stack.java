package org.holdtrace.desk.look;

import java.awt.Component;
import java.awt.Container;
import java.awt.Dimension;
import java.awt.Insets;
import java.awt.LayoutManager;
import java.awt.Rectangle;
import javax.swing.JPanel;
import javax.swing.JViewport;
import javax.swing.Scrollable;

/** Components one below the other, each as wide as there is room and as high as it then needs to be. */
public final class Stack extends JPanel implements Scrollable {
    private static final long serialVersionUID = 1L;

    public Stack(int gap) {
        super(new Downwards(gap));
    }

    @Override
    public Dimension getPreferredScrollableViewportSize() {
        return getPreferredSize();
    }

    @Override
    public int getScrollableUnitIncrement(Rectangle visible, int orientation, int direction) {
        return 3 * getFontMetrics(getFont()).getHeight();
    }

    @Override
    public int getScrollableBlockIncrement(Rectangle visible, int orientation, int direction) {
        return (int) (0.9 * visible.height);
    }

    @Override
    public boolean getScrollableTracksViewportWidth() {
        return true;
    }

    @Override
    public boolean getScrollableTracksViewportHeight() {
        return false;
    }

    private record Downwards(int gap) implements LayoutManager {
        private static final int ABOVE_BORDERS = 50;

        @Override
        public void addLayoutComponent(String name, Component component) {}

        @Override
        public void removeLayoutComponent(Component component) {}

        @Override
        public Dimension preferredLayoutSize(Container parent) {
            Container around = parent.getParent();
            int width = around instanceof JViewport ? around.getWidth() : parent.getWidth();
            return new Dimension(Math.max(width, 200), place(parent, Math.max(width, 200), false));
        }

        @Override
        public Dimension minimumLayoutSize(Container parent) {
            return new Dimension(100, 50);
        }

        @Override
        public void layoutContainer(Container parent) {
            place(parent, parent.getWidth(), true);
        }

        private int place(Container parent, int whole, boolean move) {
            Insets insets = parent.getInsets();
            int width = Math.max(1, whole - insets.left - insets.right);
            int y = insets.top;
            for (Component each : parent.getComponents()) {
                if (!each.isVisible()) {
                    continue;
                }
                // Text says how high it is only once it knows how wide, and heeds that only if higher than its border.
                each.setSize(width, Math.max(ABOVE_BORDERS, each.getHeight()));
                int height = each.getPreferredSize().height;
                if (move) {
                    each.setBounds(insets.left, y, width, height);
                }
                y += height + gap;
            }
            return y - gap + insets.bottom;
        }
    }
}
