package org.holdtrace.chart;

import java.awt.Graphics2D;
import java.awt.geom.Rectangle2D;
import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;
import org.holdtrace.estimate.HoldTestResult;
import org.holdtrace.session.TestSetup;
import org.holdtrace.trace.Trace;
import org.holdtrace.wording.Figures;
import org.holdtrace.wording.ShownUnits;
import org.jfree.svg.SVGGraphics2D;
import org.jfree.svg.ViewBox;

/**
 * The picture of one hold test: the result in words, the trace with its phases, the fit, the leak against pressure and
 * the routes side by side. The same input gives the same bytes (type is measured with the program's own typeface).
 */
public final class HoldTestChart {
    /** Width of the picture in its own units. */
    public static final int WIDTH = 1600;
    /** Height of the picture in its own units. */
    public static final int HEIGHT = 1280;

    /** Height of the four panels alone. */
    public static final int PANELS_HEIGHT = 1040;

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
        return document(WIDTH, HEIGHT, "d", g -> draw(g, session, trace, setup, result));
    }

    /**
     * A drawing as an SVG element that scales to wherever it is shown.
     *
     * @param width of the drawing in its own units
     * @param height of the drawing in its own units
     * @param prefix what the names of its definitions begin with: unlike those of any other picture on one page
     * @param drawing draws it, top left corner at the origin
     */
    public static String document(int width, int height, String prefix, Consumer<Graphics2D> drawing) {
        SVGGraphics2D g = new SVGGraphics2D(width, height);
        // The library would number its definitions after the clock.
        g.setDefsKeyPrefix(prefix);
        // A hundredth of a unit is finer than anything that is printed; full precision would triple the file.
        g.setGeomDoubleConverter(value -> Figures.fixed(value, 2));
        g.setFontFunction(family -> Typeface.FOR_BROWSERS);
        drawing.accept(g);
        return g.getSVGElement(null, true, new ViewBox(0, 0, width, height), null, null);
    }

    /** Draws the picture, {@link #WIDTH} by {@link #HEIGHT}, with its top left corner at the origin. */
    public static void draw(Graphics2D g, String session, Trace trace, TestSetup setup, HoldTestResult result) {
        g.setColor(Ink.PAPER);
        g.fill(new Rectangle2D.Double(0, 0, WIDTH, HEIGHT));
        double width = WIDTH - 2 * MARGIN;
        double y = MARGIN;
        Headline.draw(g, new Rectangle2D.Double(MARGIN, y, width, HEADLINE_HEIGHT), session, setup, result);
        y += HEADLINE_HEIGHT;
        double foot = FOOT_LINE * Math.min(result.cautions().size(), MOST_FOOT_LINES);
        double height = HEIGHT - MARGIN - foot - y;
        panels(g, new Rectangle2D.Double(MARGIN, y, width, height), trace, setup, result, ShownUnits.METRIC);
        foot(g, new Rectangle2D.Double(MARGIN, HEIGHT - MARGIN - foot, width, foot), result);
    }

    /**
     * Draws the four panels without headline and cautions, {@link #WIDTH} by {@link #PANELS_HEIGHT}, for a page that says
     * the rest in text.
     */
    public static void drawPanels(Graphics2D g, Trace trace, TestSetup setup, HoldTestResult result, ShownUnits units) {
        g.setColor(Ink.PAPER);
        g.fill(new Rectangle2D.Double(0, 0, WIDTH, PANELS_HEIGHT));
        panels(g, new Rectangle2D.Double(0, 0, WIDTH, PANELS_HEIGHT), trace, setup, result, units);
    }

    private static void panels(
            Graphics2D g, Rectangle2D area, Trace trace, TestSetup setup, HoldTestResult result, ShownUnits units) {
        double x = area.getX();
        double y = area.getY();
        TracePanel.draw(g, new Rectangle2D.Double(x, y, area.getWidth(), TRACE_HEIGHT), trace, result, units);
        y += TRACE_HEIGHT + 8;
        double height = area.getMaxY() - y;
        double column = area.getWidth() / 3;
        Optional<HoldTestResult.FitPicture> picture = result.picture();
        Optional<Double> limit = setup.limitM3PerS().map(quantity -> quantity.value());
        FitPanel.draw(
                g,
                new Rectangle2D.Double(x, y, column, height),
                picture.map(HoldTestResult.FitPicture::fit).orElse(List.of()),
                units);
        LeakCurvePanel.draw(
                g,
                new Rectangle2D.Double(x + column, y, column, height),
                picture.map(HoldTestResult.FitPicture::leakCurve).orElse(List.of()),
                result.leak(),
                limit,
                units);
        RoutesPanel.draw(g, new Rectangle2D.Double(x + 2 * column, y, column, height), result, limit, units);
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
