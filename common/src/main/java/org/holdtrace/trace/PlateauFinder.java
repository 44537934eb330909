package org.holdtrace.trace;

import java.util.List;

/** Finds the last stretch of a pump-up in which strokes no longer raise the mean pressure. */
final class PlateauFinder {
    private static final int FEWEST = 3;
    /** Flat is a mean that gains less than this part of a stroke's own rise from stroke to stroke. */
    private static final double FLAT_PART = 0.05;

    private static final double APPROACH_SCATTERS = 0.5;

    private PlateauFinder() {}

    /** The first stroke of the flat part, or -1 where pressure still rose at the end. */
    static int firstFlat(List<StrokeRefiner.Edges> strokes) {
        int n = strokes.size();
        int best = -1;
        for (int first = n - FEWEST; first >= 0; first--) {
            if (flat(strokes, first, n)) {
                best = first;
            }
        }
        return best < 0 ? best : withoutApproach(strokes, best);
    }

    /**
     * Leaves out the first strokes that still come up to the level of the later ones: a slow approach looks flat beside
     * the scatter of single strokes, but lowers the mean.
     */
    private static int withoutApproach(List<StrokeRefiner.Edges> strokes, int flat) {
        int n = strokes.size();
        int half = flat + (n - flat) / 2;
        double mean = 0;
        double rise = 0;
        for (int i = half; i < n; i++) {
            mean += level(strokes.get(i)) / (n - half);
            rise += strokes.get(i).risePa() / (n - half);
        }
        double square = 0;
        for (int i = half; i < n; i++) {
            square += Math.pow(level(strokes.get(i)) - mean, 2) / (n - half);
        }
        double margin = Math.max(APPROACH_SCATTERS * Math.sqrt(square), FLAT_PART * rise);
        int first = flat;
        while (first < half - FEWEST && start(strokes, first) < mean - margin) {
            first++;
        }
        return first;
    }

    /** Level of a stroke and the two after it, together. */
    private static double start(List<StrokeRefiner.Edges> strokes, int first) {
        return (level(strokes.get(first)) + level(strokes.get(first + 1)) + level(strokes.get(first + 2))) / FEWEST;
    }

    private static double level(StrokeRefiner.Edges stroke) {
        return 0.5 * (stroke.startPa + stroke.endPa);
    }

    /** Whether the strokes from {@code first} on show no trend that counts, as a whole and in their first half. */
    private static boolean flat(List<StrokeRefiner.Edges> strokes, int first, int n) {
        int half = Math.max(first + FEWEST, first + (n - first) / 2);
        return trend(strokes, first, n) && trend(strokes, first, Math.min(n, half));
    }

    private static boolean trend(List<StrokeRefiner.Edges> strokes, int first, int n) {
        int count = n - first;
        double middle = 0.5 * (count - 1);
        double weight = 0;
        double sum = 0;
        double rise = 0;
        double mean = 0;
        for (int i = 0; i < count; i++) {
            StrokeRefiner.Edges each = strokes.get(first + i);
            double level = level(each);
            weight += (i - middle) * (i - middle);
            sum += (i - middle) * level;
            rise += each.risePa() / count;
            mean += level / count;
        }
        double slope = sum / weight;
        double square = 0;
        for (int i = 0; i < count; i++) {
            StrokeRefiner.Edges each = strokes.get(first + i);
            double residual = level(each) - mean - slope * (i - middle);
            square += residual * residual;
        }
        double error = count > 2 ? Math.sqrt(square / (count - 2) / weight) : 0;
        return slope < FLAT_PART * rise + Math.min(error, FLAT_PART * rise);
    }
}
