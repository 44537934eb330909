package org.holdtrace.desk.compare;

import java.awt.BasicStroke;
import java.awt.BorderLayout;
import java.awt.Color;
import java.awt.Dimension;
import java.awt.Font;
import java.awt.dnd.DropTarget;
import java.awt.event.ComponentAdapter;
import java.awt.event.ComponentEvent;
import java.awt.event.MouseEvent;
import java.awt.geom.Line2D;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import javax.swing.JButton;
import javax.swing.JCheckBox;
import javax.swing.JPanel;
import javax.swing.JScrollPane;
import javax.swing.JTabbedPane;
import javax.swing.JTable;
import org.holdtrace.desk.look.Hover;
import org.holdtrace.desk.look.Palette;
import org.holdtrace.desk.look.Sourced;
import org.holdtrace.desk.look.Theme;
import org.holdtrace.desk.look.WrappingRow;
import org.holdtrace.wording.ShownUnits;
import org.jfree.chart.ChartPanel;
import org.jfree.chart.JFreeChart;
import org.jfree.chart.axis.NumberAxis;
import org.jfree.chart.plot.XYPlot;
import org.jfree.chart.renderer.xy.XYLineAndShapeRenderer;
import org.jfree.data.xy.XYSeries;
import org.jfree.data.xy.XYSeriesCollection;

/**
 * Hold tests over one another from the start of their holds, and their leak rates in a table. The first that is ticked
 * is what the others are compared with; another is made the first by a button. On the event thread.
 */
public final class ComparePanel extends JPanel {
    private static final long serialVersionUID = 1L;
    private static final int LARGEST_PICTURE = 10_000;
    /** Height at 100 % below which picture and table take turns, pixels. */
    private static final int LEAST_HEIGHT = 400;
    /** With larger type than this, %, a legend would leave no room for what it explains. */
    private static final int LARGEST_WITH_LEGEND = 150;

    /** Usual widths of the columns at 100 %. */
    private static final int[] WIDTHS = {60, 450, 105, 195, 390};

    /** Lines stay apart without colour too: each has a dash of its own. */
    private static final float[][] DASHES = {
        null, {9, 5}, {2, 4}, {12, 4, 2, 4}, {18, 6}, {5, 3, 2, 3, 2, 3},
    };

    private final JFreeChart chart;
    private final ChartPanel picture;
    private final XYSeriesCollection lines = new XYSeriesCollection();
    private final XYLineAndShapeRenderer renderer = new XYLineAndShapeRenderer(true, false);
    private final JCheckBox share = new JCheckBox("pressure as a share of the start");
    private final JButton first = new JButton("compare with the chosen one");
    private final CompareRows rows = new CompareRows(this::ticked);
    private final JTable table = new Rates(rows);
    private final JPanel controls = new WrappingRow(6);
    private final JPanel below = new JPanel(new BorderLayout());
    private boolean takesTurns;
    private transient List<Compared> tests = List.of();
    private final transient Set<Integer> hidden = new TreeSet<>();
    private transient Theme theme = Theme.usual();
    private transient ShownUnits units = ShownUnits.METRIC;

    /** Without tests. */
    public ComparePanel() {
        super(new BorderLayout(0, 6));
        setName("compare");
        XYPlot plot =
                new XYPlot(lines, new NumberAxis("time since the start of the hold [s]"), new NumberAxis(), renderer);
        ((NumberAxis) plot.getRangeAxis()).setAutoRangeIncludesZero(false);
        chart = new JFreeChart(null, null, plot, true);
        picture = new ChartPanel(chart);
        renderer.setLegendLine(new Line2D.Double(-20, 0, 20, 0)); // long enough to show a dash
        picture.setName("holds over one another");
        picture.getAccessibleContext().setAccessibleName("pressure in the hold, one line for each test");
        picture.setMaximumDrawWidth(LARGEST_PICTURE);
        picture.setMaximumDrawHeight(LARGEST_PICTURE);
        picture.setMinimumDrawWidth(1);
        picture.setMinimumDrawHeight(1);
        share.setName("as share");
        share.setMnemonic('S');
        share.addActionListener(event -> refresh());
        first.setName("compare with");
        first.setMnemonic('C');
        first.addActionListener(event -> makeFirst(table.getSelectedRow()));
        table.setName("leak rates");
        table.getAccessibleContext().setAccessibleName("leak rates of the tests");
        controls.add(share);
        controls.add(first);
        below.add(controls, BorderLayout.NORTH);
        below.add(new JScrollPane(table), BorderLayout.CENTER);
        addComponentListener(new ComponentAdapter() {
            @Override
            public void componentResized(ComponentEvent event) {
                makeRoom();
            }
        });
        place();
        look(theme, units);
    }

    /** Compares {@code next} with the first of them; all are shown. */
    public void setTests(List<Compared> next) {
        tests = List.copyOf(next);
        hidden.clear();
        refresh();
    }

    /** Takes on a look and units. */
    public void look(Theme nextTheme, ShownUnits nextUnits) {
        theme = nextTheme;
        units = nextUnits;
        table.setFont(theme.font(1));
        table.getTableHeader().setFont(theme.font(1));
        table.setRowHeight((int) theme.scaled(24));
        refresh();
        makeRoom();
    }

    /** The comparison of what is ticked. */
    public Comparison comparison() {
        List<Compared> shown = new ArrayList<>();
        for (int i = 0; i < tests.size(); i++) {
            if (!hidden.contains(i)) {
                shown.add(tests.get(i));
            }
        }
        return Comparison.of(shown);
    }

    private void ticked(int row) {
        if (!hidden.remove(row)) {
            hidden.add(row);
        }
        refresh();
    }

    private void makeFirst(int row) {
        if (row < 1) {
            return;
        }
        List<Compared> moved = new ArrayList<>(tests);
        moved.add(0, moved.remove(row));
        setTests(moved);
    }

    private void refresh() {
        Comparison comparison = comparison();
        rows.show(tests, hidden, comparison, units);
        for (int column = 0; column < WIDTHS.length; column++) {
            table.getColumnModel().getColumn(column).setPreferredWidth((int) theme.scaled(WIDTHS[column]));
        }
        lines.removeAllSeries();
        Palette palette = theme.palette();
        Color[] colors = {
            palette.measured(), palette.fitted(), palette.accent(), palette.text(), palette.caution(), palette.quiet()
        };
        chart.getXYPlot().clearAnnotations();
        List<LineNumbers.Line> numbers = new ArrayList<>();
        int line = 0;
        for (int i = 0; i < tests.size(); i++) {
            if (hidden.contains(i)) {
                continue;
            }
            XYSeries series = HoldSeries.of(
                    (i + 1) + "  " + tests.get(i).shortName(),
                    tests.get(i),
                    share.isSelected(),
                    units.pressure().toSi(1));
            lines.addSeries(series);
            numbers.add(new LineNumbers.Line(i + 1, series, colors[i % colors.length]));
            renderer.setSeriesPaint(line, colors[i % colors.length]);
            renderer.setSeriesStroke(
                    line,
                    new BasicStroke(
                            (float) theme.scaled(2.4), BasicStroke.CAP_BUTT, BasicStroke.JOIN_ROUND, 1f, dash(i), 0f));
            line++;
        }
        chart.getXYPlot()
                .addAnnotation(new LineNumbers(numbers, theme.font(1.05).deriveFont(Font.BOLD), palette.background()));
        renderer.setDrawSeriesLineAsPath(true); // a dash goes on over the points of a line
        nameAxis();
        theme.apply(chart);
        if (chart.getLegend() != null) {
            chart.getLegend().setItemFont(theme.font(1));
            chart.getLegend().setItemPaint(palette.text());
            chart.getLegend().setBackgroundPaint(palette.background());
        }
    }

    /** What goes upwards; by its unit alone where large type leaves a low picture. */
    private void nameAxis() {
        String unit = share.isSelected() ? "% of the start" : units.pressure().symbol();
        String brief = share.isSelected() ? "[%]" : "[" + unit + "]";
        chart.getXYPlot().getRangeAxis().setLabel(takesTurns ? brief : "pressure [" + unit + "]");
    }

    /** The dash of line {@code index}, in proportion to its width. */
    private float[] dash(int index) {
        float[] usual = DASHES[index % DASHES.length];
        if (usual == null) {
            return null;
        }
        float[] scaled = usual.clone();
        for (int i = 0; i < scaled.length; i++) {
            scaled[i] = (float) theme.scaled(usual[i]);
        }
        return scaled;
    }

    /** Picture above and table below; where large type leaves room for neither, they take turns. */
    private void place() {
        removeAll();
        if (takesTurns) {
            JTabbedPane tabs = new JTabbedPane();
            tabs.setName("picture or table");
            tabs.addTab("Picture", picture);
            tabs.addTab("Table", below);
            add(tabs, BorderLayout.CENTER);
        } else {
            add(picture, BorderLayout.CENTER);
            add(below, BorderLayout.SOUTH);
        }
        revalidate();
    }

    /** Room for the picture at any size of type: the table scrolls, and numbers do without a legend. */
    private void makeRoom() {
        boolean low = getHeight() > 0 && getHeight() < theme.scaled(LEAST_HEIGHT);
        if (low != takesTurns) {
            takesTurns = low;
            place();
            nameAxis();
        }
        double whole = 0;
        for (int width : WIDTHS) {
            whole += theme.scaled(width);
        }
        table.setAutoResizeMode(
                getWidth() > 0 && whole > 1.3 * getWidth()
                        ? JTable.AUTO_RESIZE_OFF
                        : JTable.AUTO_RESIZE_SUBSEQUENT_COLUMNS);
        double height = getHeight() > 0 ? Math.min(theme.scaled(150), 0.3 * getHeight()) : theme.scaled(150);
        table.setPreferredScrollableViewportSize(new Dimension(900, (int) height));
        if (chart.getLegend() != null) {
            chart.getLegend().setVisible(theme.textPercent() <= LARGEST_WITH_LEGEND);
        }
        revalidate();
    }

    /** The table, each column of which tells where its figures come from. */
    private static final class Rates extends JTable implements Sourced {
        private static final long serialVersionUID = 1L;

        Rates(CompareRows rows) {
            super(rows);
        }

        /** What is dropped here is for the window. */
        @Override
        public void setDropTarget(DropTarget target) {
            super.setDropTarget(null);
        }

        @Override
        public String getToolTipText(MouseEvent event) {
            int column = columnAtPoint(event.getPoint());
            return column < 0
                    ? null
                    : CompareRows.origin(convertColumnIndexToModel(column))
                            .map(Hover::html)
                            .orElse(null);
        }

        @Override
        public List<Figure> figures() {
            List<Figure> figures = new ArrayList<>();
            for (int column = 0; column < getModel().getColumnCount(); column++) {
                String title = getModel().getColumnName(column);
                CompareRows.origin(column).ifPresent(origin -> figures.add(new Figure(title, origin)));
            }
            return getRowCount() == 0 ? List.of() : figures;
        }
    }
}
