package org.holdtrace.desk.view;

import java.awt.Color;
import java.awt.geom.Rectangle2D;
import java.util.Arrays;

/**
 * A line of very many points, drawn with a round pen as upright spans, {@value #FINE} for each column of pixels, which
 * are averaged: what any drawing of such a line comes to, at a cost that goes with the columns and not with the points.
 */
final class Spans {
    private static final int FINE = 3;

    private final int left;
    private final int columns;
    private final double[] top;
    private final double[] bottom;
    private double lastX = Double.NaN;
    private double lastY;

    /** For columns {@code left} (inclusive, at least 0) to {@code right} (exclusive), in pixels of the screen. */
    Spans(int left, int right) {
        this.left = left;
        columns = Math.max(0, right - left);
        top = new double[FINE * columns];
        bottom = new double[FINE * columns];
        Arrays.fill(top, Double.POSITIVE_INFINITY);
        Arrays.fill(bottom, Double.NEGATIVE_INFINITY);
    }

    /** Goes on to a point, in pixels, or begins there; no number breaks the line. {@code x} never decreases. */
    void to(double x, double y) {
        if (!Double.isFinite(x) || !Double.isFinite(y)) {
            lastX = Double.NaN;
            return;
        }
        double fineX = FINE * (x - left);
        if (Double.isNaN(lastX)) {
            take((int) Math.floor(fineX), y, y);
        } else {
            int first = (int) Math.floor(lastX);
            int last = (int) Math.floor(fineX);
            for (int i = Math.max(first, 0); i <= Math.min(last, top.length - 1); i++) {
                take(i, i == first ? lastY : between(fineX, y, i), i == last ? y : between(fineX, y, i + 1.0));
            }
        }
        lastX = fineX;
        lastY = y;
    }

    private double between(double x, double y, double atX) {
        return lastY + (y - lastY) * (atX - lastX) / (x - lastX);
    }

    private void take(int i, double y, double otherY) {
        if (i >= 0 && i < top.length) {
            top[i] = Math.min(top[i], Math.min(y, otherY));
            bottom[i] = Math.max(bottom[i], Math.max(y, otherY));
        }
    }

    /** Draws it {@code width} pixels thick, inside {@code area}, all in pixels of the screen. */
    void draw(Sheet sheet, Rectangle2D area, double width, Color color) {
        int from = Math.max(0, (int) Math.floor(area.getY()));
        int to = Math.min(sheet.height(), (int) Math.ceil(area.getMaxY()));
        double[] pen = pen(width);
        Covered covered = new Covered(from, Math.max(0, to - from));
        int[] pixels = sheet.pixels();
        for (int column = 0; column < columns && left + column < sheet.width(); column++) {
            int first = to;
            int last = from;
            for (int i = FINE * column; i < FINE * (column + 1); i++) {
                double high = Double.POSITIVE_INFINITY;
                double low = Double.NEGATIVE_INFINITY;
                for (int beside = 1 - pen.length; beside < pen.length; beside++) {
                    if (i + beside >= 0 && i + beside < top.length) {
                        high = Math.min(high, top[i + beside] - pen[Math.abs(beside)]);
                        low = Math.max(low, bottom[i + beside] + pen[Math.abs(beside)]);
                    }
                }
                high = Math.max(from, high);
                low = Math.min(to, low);
                if (high < low) {
                    covered.take(high, low);
                    first = Math.min(first, (int) Math.floor(high));
                    last = Math.max(last, (int) Math.ceil(low));
                }
            }
            for (int y = first; y < last; y++) {
                int at = y * sheet.width() + left + column;
                pixels[at] = mixed(pixels[at], color.getRGB(), covered.next(y));
            }
            covered.begin();
        }
    }

    /** Half the height of a round pen at each fine column from its middle on. */
    private static double[] pen(double width) {
        double[] pen = new double[(int) (FINE * width / 2) + 1];
        for (int i = 0; i < pen.length; i++) {
            pen[i] = Math.sqrt(Math.max(0, width * width / 4 - (double) i * i / (FINE * FINE)));
        }
        return pen;
    }

    /** How much of each pixel of a column its fine spans cover: only their ends cost anything. */
    private static final class Covered {
        private final int from;
        private final float[] ends;
        private final int[] steps;
        private int whole;

        Covered(int from, int height) {
            this.from = from;
            ends = new float[height];
            steps = new int[height];
        }

        /** Adds a fine span from {@code high} to {@code low}. */
        void take(double high, double low) {
            int start = (int) Math.floor(high) - from;
            int end = (int) Math.ceil(low) - 1 - from;
            if (start == end) {
                ends[start] += (float) (low - high);
            } else {
                ends[start] += (float) (start + 1 + from - high);
                ends[end] += (float) (low - end - from);
                steps[start + 1]++;
                steps[end]--;
            }
        }

        /** Share of pixel {@code y} that is covered; asked for one after the other, downwards, and forgotten. */
        float next(int y) {
            whole += steps[y - from];
            float share = (whole + ends[y - from]) / FINE;
            steps[y - from] = 0;
            ends[y - from] = 0;
            return share;
        }

        /** Another column. */
        void begin() {
            whole = 0;
        }
    }

    private static int mixed(int below, int above, float share) {
        if (share >= 0.996f) {
            return above & 0xFFFFFF;
        }
        int part = Math.round(256 * share);
        int redBlue = ((below & 0xFF00FF) * (256 - part) + (above & 0xFF00FF) * part) >>> 8;
        int green = ((below & 0xFF00) * (256 - part) + (above & 0xFF00) * part) >>> 8;
        return (redBlue & 0xFF00FF) | (green & 0xFF00);
    }
}
