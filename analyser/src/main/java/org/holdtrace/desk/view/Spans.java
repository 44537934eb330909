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
    /**
     * Columns that are painted together where they are covered alike, row by row: a picture's rows lie one behind the
     * other in memory, which is fetched in so many pixels at a time (64 bytes).
     */
    private static final int BESIDE = 16;

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
        Column[] beside = new Column[BESIDE];
        for (int i = 0; i < BESIDE; i++) {
            beside[i] = new Column(sheet, color.getRGB());
        }
        int end = Math.min(columns, sheet.width() - left);
        for (int x = 0; x < end; x += BESIDE) {
            int wide = Math.min(BESIDE, end - x);
            int solidFrom = from;
            int solidTo = to;
            for (int i = 0; i < wide; i++) {
                take(beside[i], x + i, pen, from, to);
                solidFrom = Math.max(solidFrom, beside[i].solidFrom());
                solidTo = Math.min(solidTo, beside[i].solidTo());
            }
            for (int i = 0; i < wide; i++) {
                beside[i].paint(left + x + i, solidFrom, Math.max(solidFrom, solidTo));
            }
            int[] pixels = sheet.pixels();
            for (int y = solidFrom; y < solidTo; y++) {
                int at = y * sheet.width() + left + x;
                Arrays.fill(pixels, at, at + wide, color.getRGB());
            }
        }
    }

    /** Gives {@code column} the fine spans of column {@code x}. */
    private void take(Column column, int x, double[] pen, int from, int to) {
        for (int i = FINE * x; i < FINE * (x + 1); i++) {
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
                column.take(high, low);
            }
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

    /**
     * A column of pixels and the fine spans in it. Between the ends of its spans every pixel is covered alike, so only
     * the few pixels that have an end in them are worked out; what lies between is filled.
     */
    private static final class Column {
        private final Sheet sheet;
        private final int rgb;
        private final double[] high = new double[FINE];
        private final double[] low = new double[FINE];
        private final int[] ends = new int[2 * FINE];
        private int size;

        Column(Sheet sheet, int rgb) {
            this.sheet = sheet;
            this.rgb = rgb & 0xFFFFFF;
        }

        /** Adds a fine span from {@code from} to {@code to}, which is further down. */
        void take(double from, double to) {
            high[size] = from;
            low[size] = to;
            end(2 * size, (int) from);
            end(2 * size + 1, (int) Math.ceil(to) - 1);
            size++;
        }

        /** Keeps the rows with ends in them in order; {@code count} are there already. */
        private void end(int count, int row) {
            int at = count;
            while (at > 0 && ends[at - 1] > row) {
                ends[at] = ends[at - 1];
                at--;
            }
            ends[at] = row;
        }

        /** The first row that all its fine spans cover whole; with {@link #solidTo} before it where there is none. */
        int solidFrom() {
            double highest = 0;
            for (int i = 0; i < size; i++) {
                highest = Math.max(highest, high[i]);
            }
            return (int) Math.ceil(highest);
        }

        /** The row after the last that all its fine spans cover whole. */
        int solidTo() {
            double lowest = size < FINE ? 0 : Integer.MAX_VALUE;
            for (int i = 0; i < size; i++) {
                lowest = Math.min(lowest, low[i]);
            }
            return (int) Math.floor(lowest);
        }

        /** Paints it at {@code x}, but for rows {@code but} to {@code butNot} (exclusive), and forgets its spans. */
        void paint(int x, int but, int butNot) {
            int next = Integer.MIN_VALUE;
            for (int i = 0; i < 2 * size; i++) {
                if (next <= ends[i]) {
                    int from = Math.max(next, ends[0]);
                    fill(x, from, Math.min(ends[i], but));
                    fill(x, Math.max(from, butNot), ends[i]);
                    if (ends[i] < but || ends[i] >= butNot) {
                        fill(x, ends[i], ends[i] + 1);
                    }
                    next = ends[i] + 1;
                }
            }
            size = 0;
        }

        /** From row {@code from} to {@code to} (exclusive), which are all covered as the first of them is. */
        private void fill(int x, int from, int to) {
            if (from >= to) {
                return;
            }
            double covered = 0;
            for (int i = 0; i < size; i++) {
                covered += Math.max(0, Math.min(from + 1, low[i]) - Math.max(from, high[i]));
            }
            int part = (int) (256 * covered / FINE + 0.5);
            int[] pixels = sheet.pixels();
            int width = sheet.width();
            int last = to * width + x;
            if (part >= 255) {
                for (int at = from * width + x; at < last; at += width) {
                    pixels[at] = rgb;
                }
            } else if (part > 0) {
                int redBlue = (rgb & 0xFF00FF) * part;
                int green = (rgb & 0xFF00) * part;
                int rest = 256 - part;
                for (int at = from * width + x; at < last; at += width) {
                    int below = pixels[at];
                    int mixedRedBlue = ((below & 0xFF00FF) * rest + redBlue) >>> 8;
                    int mixedGreen = ((below & 0xFF00) * rest + green) >>> 8;
                    pixels[at] = (mixedRedBlue & 0xFF00FF) | (mixedGreen & 0xFF00);
                }
            }
        }
    }
}
