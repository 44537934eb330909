package org.holdtrace.chart;

import java.awt.Graphics2D;
import java.awt.geom.Rectangle2D;
import java.util.List;
import java.util.Optional;
import org.holdtrace.estimate.HoldTestResult;
import org.holdtrace.session.TestSetup;
import org.holdtrace.trace.Trace;
import org.holdtrace.wording.Figures;
import org.jfree.svg.SVGGraphics2D;
import org.jfree.svg.ViewBox;

/**
 * The picture of one hold test: the result in words, the trace with its phases, the fit, the leak against pressure and
 * the routes side by side. The same input gives the same bytes on one machine (type is measured with its fonts).
 */
public final class HoldTestChart {
    /** Width of the picture in its own units. */
    public static final int WIDTH = 1600;
    /** Height of the picture in its own units. */
    public static final int HEIGHT = 1280;

    private static final double MARGIN = 24;
    private static final double HEADLINE_HEIGHT = 160;
    private static final double TRACE_HEIGHT = 470;
    private static final double FOOT_LINE = 29;
    private static final int MOST_FOOT_LINES = 2;

    private HoldTestChart() {}

    /**
     * The picture as an SVG document that scales to wherever it is shown.
     *
     * @param session name of the session for the headline
     * @param trace the recording the hold test was found in
     * @param setup what is known of the test; names what was tested and the limit
     * @param result what is drawn
     */
    public static String svg(String session, Trace trace, TestSetup setup, HoldTestResult result) {
        SVGGraphics2D g = new SVGGraphics2D(WIDTH, HEIGHT);
        // The library would number its definitions after the clock.
        g.setDefsKeyPrefix("d");
        // A hundredth of a unit is finer than anything that is printed; full precision would triple the file.
        g.setGeomDoubleConverter(value -> Figures.fixed(value, 2));
        draw(g, session, trace, setup, result);
        return g.getSVGElement(null, true, new ViewBox(0, 0, WIDTH, HEIGHT), null, null);
    }

    /** Draws the picture, {@link #WIDTH} by {@link #HEIGHT}, with its top left corner at the origin. */
    public static void draw(Graphics2D g, String session, Trace trace, TestSetup setup, HoldTestResult result) {
        g.setColor(Ink.PAPER);
        g.fill(new Rectangle2D.Double(0, 0, WIDTH, HEIGHT));
        double width = WIDTH - 2 * MARGIN;
        double y = MARGIN;
        Headline.draw(g, new Rectangle2D.Double(MARGIN, y, width, HEADLINE_HEIGHT), session, setup, result);
        y += HEADLINE_HEIGHT;
        TracePanel.draw(g, new Rectangle2D.Double(MARGIN, y, width, TRACE_HEIGHT), trace, result);
        y += TRACE_HEIGHT + 8;
        double foot = FOOT_LINE * Math.min(result.cautions().size(), MOST_FOOT_LINES);
        double height = HEIGHT - MARGIN - foot - y;
        double column = width / 3;
        Optional<HoldTestResult.FitPicture> picture = result.picture();
        Optional<Double> limit = setup.limitM3PerS().map(quantity -> quantity.value());
        FitPanel.draw(
                g,
                new Rectangle2D.Double(MARGIN, y, column, height),
                picture.map(HoldTestResult.FitPicture::fit).orElse(List.of()));
        LeakCurvePanel.draw(
                g,
                new Rectangle2D.Double(MARGIN + column, y, column, height),
                picture.map(HoldTestResult.FitPicture::leakCurve).orElse(List.of()),
                result.leak(),
                limit);
        RoutesPanel.draw(g, new Rectangle2D.Double(MARGIN + 2 * column, y, column, height), result, limit);
        foot(g, new Rectangle2D.Double(MARGIN, HEIGHT - MARGIN - foot, width, foot), result);
    }

    private static void foot(Graphics2D g, Rectangle2D area, HoldTestResult result) {
        List<HoldTestResult.Caution> cautions = result.cautions();
        int shown = Math.min(cautions.size(), MOST_FOOT_LINES);
        for (int i = 0; i < shown; i++) {
            boolean more = i == shown - 1 && cautions.size() > shown;
            String rest = more ? "  (and " + (cautions.size() - shown) + " more)" : "";
            double width = area.getWidth() - 20 - Text.width(g, Ink.NOTE, rest);
            String line = Text.cut(g, Ink.NOTE, "Caution: " + cautions.get(i).text(), width) + rest;
            Text.left(g, Ink.NOTE, Ink.TEXT, line, area.getX() + 10, area.getY() + FOOT_LINE * (i + 1));
        }
    }
}
