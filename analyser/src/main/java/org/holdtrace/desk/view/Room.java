package org.holdtrace.desk.view;

import java.awt.FontMetrics;
import java.awt.geom.Rectangle2D;

/**
 * How a trace view of some size is divided: the same for painting and for pointing. Pixels of the component.
 *
 * @param plot where the trace is drawn
 * @param residuals where what the fit leaves over is drawn, on the same times
 * @param showsResiduals whether there is room for residuals: large type in a low window leaves it to the trace
 * @param isLow whether there is hardly room for the trace alone; then what stands around it in other views is left out or
 *     laid over it
 * @param line height of a line of type
 */
record Room(Rectangle2D plot, Rectangle2D residuals, boolean showsResiduals, boolean isLow, double line) {
    /** Lower than so many lines of type a view is low. */
    private static final double LOW = 11;

    private static final double HIGH_ENOUGH_FOR_BOTH = 17;

    /** Of a view of {@code width} by {@code height}, with a fit whose residuals are to be shown or without one. */
    static Room of(FontMetrics metrics, double width, double height, boolean fit) {
        double line = metrics.getHeight();
        double left = metrics.stringWidth("−0000.0") + line;
        boolean both = fit && height > HIGH_ENOUGH_FOR_BOTH * line;
        boolean low = height < LOW * line;
        double above = (low ? 1.6 : 2.8) * line;
        double below = (low ? 1.5 : 3.6) * line;
        double high = both ? 0.72 * (height - 7.8 * line) : height - above - below;
        Rectangle2D plot = new Rectangle2D.Double(left, above, Math.max(2, width - left - line), Math.max(1, high));
        double top = plot.getMaxY() + 1.4 * line;
        Rectangle2D residuals = new Rectangle2D.Double(left, top, plot.getWidth(), Math.max(1, height - below - top));
        return new Room(plot, residuals, both, low, line);
    }
}
