package org.holdtrace.desk.look;

import java.awt.Component;
import java.awt.Dimension;
import java.awt.FlowLayout;
import javax.swing.JPanel;

/** Controls side by side, in as many rows as the width asks for; a flow of Swing's own asks for the height of one row. */
public final class WrappingRow extends JPanel {
    private static final long serialVersionUID = 1L;

    private final int gap;

    /** @param gap between controls and rows, pixels */
    public WrappingRow(int gap) {
        super(new FlowLayout(FlowLayout.LEADING, gap, gap));
        this.gap = gap;
    }

    @Override
    public Dimension getPreferredSize() {
        int width = getParent() == null ? 0 : getParent().getWidth();
        if (width == 0) {
            return super.getPreferredSize();
        }
        int x = gap;
        int row = 0;
        int height = gap;
        for (Component each : getComponents()) {
            Dimension size = each.getPreferredSize();
            if (x > gap && x + size.width + gap > width) {
                height += row + gap;
                x = gap;
                row = 0;
            }
            x += size.width + gap;
            row = Math.max(row, size.height);
        }
        return new Dimension(width, height + row + gap);
    }
}
