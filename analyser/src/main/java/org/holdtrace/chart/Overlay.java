package org.holdtrace.chart;

import java.awt.Graphics2D;
import java.awt.geom.Rectangle2D;
import org.jfree.chart.annotations.AbstractXYAnnotation;
import org.jfree.chart.axis.ValueAxis;
import org.jfree.chart.plot.PlotRenderingInfo;
import org.jfree.chart.plot.XYPlot;
import org.jfree.chart.ui.RectangleEdge;

/** Something drawn into a plot by hand, in the plot's own coordinates. */
final class Overlay extends AbstractXYAnnotation {
    private static final long serialVersionUID = 1L;

    private final transient Drawing drawing;

    Overlay(Drawing drawing) {
        this.drawing = drawing;
    }

    /** Draws, given the area of the plot and the way from values to its pixels. */
    interface Drawing {
        void draw(Graphics2D g, Scale scale);
    }

    /** From values to pixels inside {@code area}. */
    record Scale(Rectangle2D area, ValueAxis domain, ValueAxis range) {
        double x(double value) {
            return domain.valueToJava2D(value, area, RectangleEdge.BOTTOM);
        }

        double y(double value) {
            return range.valueToJava2D(value, area, RectangleEdge.LEFT);
        }
    }

    @Override
    public void draw(
            Graphics2D g,
            XYPlot plot,
            Rectangle2D dataArea,
            ValueAxis domainAxis,
            ValueAxis rangeAxis,
            int rendererIndex,
            PlotRenderingInfo info) {
        drawing.draw(g, new Scale(dataArea, domainAxis, rangeAxis));
    }

    @Override
    public boolean equals(Object other) {
        return this == other;
    }

    @Override
    public int hashCode() {
        return System.identityHashCode(this);
    }
}
