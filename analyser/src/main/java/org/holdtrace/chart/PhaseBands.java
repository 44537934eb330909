package org.holdtrace.chart;

import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.Shape;
import java.awt.geom.Line2D;
import java.awt.geom.Path2D;
import java.awt.geom.Rectangle2D;
import java.util.ArrayList;
import java.util.List;
import org.holdtrace.trace.HoldTest;
import org.holdtrace.trace.Phase;
import org.holdtrace.trace.PhaseSpan;

/** The phases of a hold test behind its trace: a tint and a hatch each, and the word above, tied to its stretch. */
final class PhaseBands {
    /** Height of the lane of words above the plot. */
    static final double LANE = 66;

    private static final double HATCH_SPACING = 14;
    private static final double WORD_GAP = 18;

    private final HoldTest test;
    private final TimeUnitShown unit;

    PhaseBands(HoldTest test, TimeUnitShown unit) {
        this.test = test;
        this.unit = unit;
    }

    /** Tints and hatches, to be drawn behind the trace. */
    void drawBehind(Graphics2D g, Overlay.Scale scale) {
        for (PhaseSpan span : test.phases()) {
            Rectangle2D band = band(span, scale);
            Color tint = tint(span.phase());
            if (tint != null) {
                g.setColor(tint);
                g.fill(band);
            }
            hatch(g, band, span.phase());
        }
        g.setColor(Ink.QUIET);
        g.setStroke(Ink.THIN);
        for (PhaseSpan span : test.phases()) {
            Rectangle2D band = band(span, scale);
            g.draw(new Line2D.Double(band.getX(), band.getY(), band.getX(), band.getMaxY()));
            g.draw(new Line2D.Double(band.getMaxX(), band.getY(), band.getMaxX(), band.getMaxY()));
        }
    }

    /** The words, in a lane that ends at the top of the plot's area. Words that would touch are moved apart. */
    void drawWords(Graphics2D g, Overlay.Scale scale) {
        Rectangle2D area = scale.area();
        List<PhaseSpan> spans = test.phases();
        double[] middle = new double[spans.size()];
        double[] width = new double[spans.size()];
        List<String> words = new ArrayList<>();
        for (int i = 0; i < spans.size(); i++) {
            words.add(word(spans.get(i)));
            width[i] = Text.width(g, Ink.LABEL, words.get(i)) + WORD_GAP;
            middle[i] = anchor(spans.get(i), scale);
        }
        double[] placed = spread(middle, width, area.getX() - 60, area.getMaxX() + 10);
        for (int i = 0; i < spans.size(); i++) {
            double bottom = area.getY();
            g.setColor(Ink.QUIET);
            g.setStroke(Ink.THIN);
            Path2D tie = new Path2D.Double();
            tie.moveTo(placed[i], bottom - LANE + 38);
            tie.lineTo(placed[i], bottom - LANE + 44);
            tie.lineTo(middle[i], bottom - 6);
            tie.lineTo(middle[i], bottom);
            g.draw(tie);
            Text.centred(g, Ink.LABEL, Ink.TEXT, words.get(i), placed[i], bottom - LANE + 30);
        }
    }

    private String word(PhaseSpan span) {
        if (span.phase() == Phase.PUMP_UP && !test.strokes().isEmpty()) {
            int strokes = test.strokes().size();
            return span.phase().label() + " (" + strokes + (strokes == 1 ? " stroke)" : " strokes)");
        }
        return span.phase().label();
    }

    /** The middle of a phase; of a pump-up with a plateau, the middle of the part before the plateau. */
    private double anchor(PhaseSpan span, Overlay.Scale scale) {
        double toS = span.toS();
        if (span.phase() == Phase.PUMP_UP && test.phase(Phase.PLATEAU).isPresent()) {
            toS = Math.max(span.fromS(), test.phase(Phase.PLATEAU).get().fromS());
        }
        return scale.x(unit.from((span.fromS() + toS) / 2));
    }

    /**
     * Places intervals of the given widths as near to their wished middles as they can be in their order without
     * touching, inside {@code left} to {@code right}.
     */
    static double[] spread(double[] wished, double[] width, double left, double right) {
        double[] placed = wished.clone();
        double edge = left;
        for (int i = 0; i < placed.length; i++) {
            placed[i] = Math.max(placed[i], edge + width[i] / 2);
            edge = placed[i] + width[i] / 2;
        }
        edge = right;
        for (int i = placed.length - 1; i >= 0; i--) {
            placed[i] = Math.min(placed[i], edge - width[i] / 2);
            edge = placed[i] - width[i] / 2;
        }
        return placed;
    }

    private Rectangle2D band(PhaseSpan span, Overlay.Scale scale) {
        double from = scale.x(unit.from(span.fromS()));
        double to = scale.x(unit.from(span.toS()));
        return new Rectangle2D.Double(
                from, scale.area().getY(), to - from, scale.area().getHeight());
    }

    private static Color tint(Phase phase) {
        return switch (phase) {
            case REST, PLATEAU -> null;
            case PUMP_UP -> Ink.PUMPING;
            case SETTLING -> Ink.SETTLING;
            case HOLD -> Ink.HOLDING;
            case BLEED_OFF -> Ink.PAPER;
        };
    }

    private static void hatch(Graphics2D g, Rectangle2D band, Phase phase) {
        if (phase == Phase.PLATEAU) {
            hatch(g, band, true);
        }
        if (phase == Phase.BLEED_OFF) {
            hatch(g, band, false);
        }
    }

    /** Slanting lines, one path, cut to the band. */
    private static void hatch(Graphics2D g, Rectangle2D band, boolean rising) {
        Shape clip = g.getClip();
        g.clip(band);
        Path2D lines = new Path2D.Double();
        double height = band.getHeight();
        for (double x = band.getX() - height; x < band.getMaxX(); x += HATCH_SPACING) {
            lines.moveTo(x, rising ? band.getMaxY() : band.getY());
            lines.lineTo(x + height, rising ? band.getY() : band.getMaxY());
        }
        g.setColor(Ink.QUIET);
        g.setStroke(Ink.THIN);
        g.draw(lines);
        g.setClip(clip);
    }
}
