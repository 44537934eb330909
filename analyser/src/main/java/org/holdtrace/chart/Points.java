package org.holdtrace.chart;

import org.jfree.data.DomainOrder;
import org.jfree.data.xy.AbstractXYDataset;

/** One named series of points in two arrays, without the boxing of the library's own data sets. */
final class Points extends AbstractXYDataset {
    private static final long serialVersionUID = 1L;

    private final String name;
    private final double[] x;
    private final double[] y;

    /** Points in ascending {@code x}; the arrays are not copied. */
    Points(String name, double[] x, double[] y) {
        this.name = name;
        this.x = x;
        this.y = y;
    }

    @Override
    public DomainOrder getDomainOrder() {
        return DomainOrder.ASCENDING;
    }

    @Override
    public int getSeriesCount() {
        return 1;
    }

    @Override
    public Comparable<?> getSeriesKey(int series) {
        return name;
    }

    @Override
    public int getItemCount(int series) {
        return x.length;
    }

    @Override
    public Number getX(int series, int item) {
        return x[item];
    }

    @Override
    public Number getY(int series, int item) {
        return y[item];
    }

    @Override
    public double getXValue(int series, int item) {
        return x[item];
    }

    @Override
    public double getYValue(int series, int item) {
        return y[item];
    }
}
