package org.holdtrace.desk.classroom;

import java.awt.Container;
import java.awt.Dimension;
import java.awt.Font;
import java.awt.Insets;
import java.awt.LayoutManager;
import java.util.Optional;
import javax.accessibility.AccessibleRole;
import javax.swing.BorderFactory;
import javax.swing.JComponent;
import org.holdtrace.desk.look.Drawing;
import org.holdtrace.desk.look.PhaseLook;
import org.holdtrace.desk.look.Theme;
import org.holdtrace.quantity.Unit;
import org.holdtrace.wording.Figures;

/** A lane from top to bottom: name, pressure in very large figures, phase in words, trace, verdict. On the event thread. */
final class LaneView extends Drawing {
    private static final long serialVersionUID = 1L;
    /** Sizes the type of both lines below the verdict alike, since they are compared. */
    private static final String WIDEST_FIGURES = "88.88 (88.8 to 88.8) cm³/min at 188 bar";

    /** The figure above is the last there was: nobody may take it for what is so now. */
    private static final String SILENT = "the last figure; nothing new";

    private static final String HIDDEN = "verdict covered · V uncovers it";
    /** Shares of the height, in the order of the parts. */
    private static final double[] SHARES = {0.08, 0.27, 0.10, 0.30, 0.09, 0.08, 0.08};

    private final transient Lane lane;
    private transient Theme theme;
    private final Plate name;
    private final Plate pressure;
    private final Plate phase;
    private final StripView strip;
    private final Plate headline;
    private final Plate detail;
    private final Plate truth;

    LaneView(Lane lane, Theme theme) {
        super(AccessibleRole.PANEL);
        this.lane = lane;
        this.theme = theme;
        name = new Plate("name", "", Font.BOLD, false, theme);
        pressure = new Plate("pressure", "888.8", Font.BOLD, false, theme);
        phase = new Plate("phase", "▲ bleed-off, 88 strokes", Font.BOLD, false, theme);
        strip = new StripView(lane, theme);
        headline = new Plate("verdict", "UNDECIDED against the limit of 88.88 cm³/min", Font.BOLD, false, theme);
        detail = new Plate("figures", WIDEST_FIGURES, Font.PLAIN, false, theme);
        truth = new Plate("truth", WIDEST_FIGURES, Font.PLAIN, false, theme);
        setLayout(new Stacked());
        for (JComponent part : parts()) {
            add(part);
        }
        setName("lane");
        getAccessibleContext().setAccessibleName(lane.name());
        cover();
        setTheme(theme);
    }

    private JComponent[] parts() {
        return new JComponent[] {name, pressure, phase, strip, headline, detail, truth};
    }

    Lane lane() {
        return lane;
    }

    StripView strip() {
        return strip;
    }

    void setTheme(Theme next) {
        theme = next;
        setOpaque(true);
        setBackground(next.palette().background());
        setBorder(BorderFactory.createLineBorder(next.palette().grid(), 1));
        for (Plate plate : new Plate[] {name, pressure, phase, headline, detail, truth}) {
            plate.setTheme(next);
        }
        strip.setTheme(next);
        repaint();
    }

    /** Shows the trace as it is now. */
    void refreshStrip(Unit unit, double windowS, double topPa) {
        strip.setScale(unit, windowS, topPa);
    }

    /** Shows figures and phase as they are now, under {@code called}. */
    void refreshFigures(String called, Unit unit) {
        name.setText(called);
        Lane.Shown shown = lane.shown();
        pressure.setSuffix(" " + unit.symbol());
        if (!shown.hasSamples()) {
            pressure.setText("–");
            phase.setText("nothing measured yet");
            phase.setGround(Optional.empty());
            return;
        }
        boolean silent = lane.isSilent();
        pressure.setColor(silent ? theme.palette().quiet() : theme.palette().text());
        pressure.setText(Figures.fixed(unit.fromSi(shown.pressurePa()), unit == Unit.PSI ? 0 : 1));
        phase.setText(silent ? SILENT : words(shown));
        phase.setGround(silent ? Optional.empty() : Optional.of(shown.phase()));
        getAccessibleContext()
                .setAccessibleName(called + ": " + pressure.text() + " " + unit.symbol() + ", "
                        + (silent ? SILENT : shown.phase().label()));
    }

    /** Phase and what counts in it: strokes while somebody pumps, seconds afterwards. */
    private static String words(Lane.Shown shown) {
        String sign = PhaseLook.words(shown.phase());
        return switch (shown.phase()) {
            case REST -> sign;
            case PUMP_UP, PLATEAU -> sign + ", " + shown.strokes() + (shown.strokes() == 1 ? " stroke" : " strokes");
            case SETTLING, HOLD, BLEED_OFF -> sign + ", " + Figures.fixed(shown.timeS() - shown.sinceS(), 0) + " s";
        };
    }

    /** Covers the verdict. */
    void cover() {
        headline.setColor(theme.palette().quiet());
        headline.setText(HIDDEN);
        detail.setText("");
        truth.setText("");
    }

    /** Says that the verdict is being worked out. */
    void working() {
        headline.setColor(theme.palette().quiet());
        headline.setText("working it out …");
    }

    /** Uncovers {@code told}. */
    void uncover(Verdict.Told told) {
        headline.setColor(told.outcome()
                .map(theme.palette()::verdict)
                .orElse(theme.palette().text()));
        headline.setText(told.headline());
        detail.setText(told.detail());
        truth.setText(told.truth());
    }

    /** Parts one below the other, by their shares of the height. */
    private static final class Stacked implements LayoutManager {
        @Override
        public void addLayoutComponent(String constraint, java.awt.Component part) {}

        @Override
        public void removeLayoutComponent(java.awt.Component part) {}

        @Override
        public Dimension preferredLayoutSize(Container parent) {
            return new Dimension(600, 600);
        }

        @Override
        public Dimension minimumLayoutSize(Container parent) {
            return new Dimension(200, 200);
        }

        @Override
        public void layoutContainer(Container parent) {
            Insets insets = parent.getInsets();
            int width = parent.getWidth() - insets.left - insets.right;
            int height = parent.getHeight() - insets.top - insets.bottom;
            double share = 0;
            int y = insets.top;
            for (int i = 0; i < parent.getComponentCount(); i++) {
                share += SHARES[i];
                int next = insets.top + (int) Math.round(share * height);
                parent.getComponent(i).setBounds(insets.left, y, width, next - y);
                y = next;
            }
        }
    }
}
