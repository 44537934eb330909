package org.holdtrace.judge;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SplittableRandom;

/** Draws which elements of one component are worn, and what they leak, as probable as its tests leave them. */
final class ComponentDraws {
    /** Steps of the grids to a test's standard uncertainty: these draws need not be finer. */
    private static final double FINENESS = 0.75;

    private final List<Element> elements;
    private final Map<String, Double> limits;
    private final int from;
    private final double[] upTo;
    private final LeakGrid grid;
    private final LeakSums.Draws sums;
    private final Map<Integer, double[][][]> masses = new HashMap<>();

    /**
     * @param weights how probable each element is to be sound and worn without those tests, by name
     * @param limitsM3PerS limit of each element by name
     * @param from place of its first element in what is drawn into
     */
    ComponentDraws(Component component, Map<String, double[]> weights, Map<String, Double> limitsM3PerS, int from) {
        this.elements = component.elements();
        this.limits = limitsM3PerS;
        this.from = from;
        upTo = component.likelihood().clone();
        for (int set = 0; set < upTo.length; set++) {
            for (int e = 0; e < elements.size(); e++) {
                upTo[set] *= weights.get(elements.get(e).name())[set >> e & 1];
            }
            upTo[set] += set > 0 ? upTo[set - 1] : 0;
        }
        grid = component.tests().isEmpty() ? null : new LeakGrid(elements, component.tests(), limits, FINENESS);
        sums = grid == null ? null : new LeakSums.Draws(grid);
    }

    /** Draws which elements are worn. */
    void drawSet(SplittableRandom random, boolean[] into) {
        int set = LeakSums.pick(upTo, random);
        for (int e = 0; e < elements.size(); e++) {
            into[from + e] = (set >> e & 1) == 1;
        }
    }

    /** Draws what they leak, m³/s, where {@code are} worn. */
    void drawLeaks(SplittableRandom random, boolean[] are, double[] into) {
        int set = 0;
        for (int e = 0; e < elements.size(); e++) {
            set |= are[from + e] ? 1 << e : 0;
            Element element = elements.get(e);
            into[from + e] =
                    limits.get(element.name()) * LeakSize.quantile(element.kind(), are[from + e], random.nextDouble());
        }
        Optional<int[]> groups = sums == null ? Optional.empty() : sums.draw(set, random);
        if (groups.isPresent()) {
            for (int g = 0; g < grid.groupCount(); g++) {
                share(g, groups.get()[g], set, random, into);
            }
        }
    }

    /** Shares the leak of a group out among its members. */
    private void share(int g, int multiple, int set, SplittableRandom random, double[] into) {
        int[] members = grid.members(g);
        int own = 0;
        for (int m = 0; m < members.length; m++) {
            own |= (set >> members[m] & 1) << m;
        }
        int key = own;
        double[][][] mass = masses.computeIfAbsent(g << 20 | own, k -> masses(members, key, grid.points(g), g));
        int left = multiple;
        for (int m = 0; m < members.length - 1; m++) {
            double[] mine = mass[0][m];
            double[] others = mass[1][m + 1];
            double total = 0;
            for (int i = 0; i <= left; i++) {
                total += mine[i] * others[left - i];
            }
            double at = random.nextDouble() * total;
            int chosen = 0;
            while (chosen < left && (at -= mine[chosen] * others[left - chosen]) >= 0) {
                chosen++;
            }
            into[from + members[m]] = chosen * grid.stepM3PerS(g);
            left -= chosen;
        }
        into[from + members[members.length - 1]] = left * grid.stepM3PerS(g);
    }

    /** By member: the distribution of its leak, and that of its and all later ones together. */
    private double[][][] masses(int[] members, int own, int points, int g) {
        double[][] alone = new double[members.length][];
        double[][] together = new double[members.length][];
        Series later = null;
        for (int m = members.length - 1; m >= 0; m--) {
            Element element = elements.get(members[m]);
            Series mine = Series.of(
                    element.kind(),
                    (own >> m & 1) == 1,
                    limits.get(element.name()),
                    points,
                    grid.stepM3PerS(g),
                    new double[] {1});
            later = later == null ? mine : mine.plus(later);
            alone[m] = values(mine, points);
            together[m] = values(later, points);
        }
        return new double[][][] {alone, together};
    }

    private double[] values(Series series, int points) {
        double[] values = new double[points];
        for (int i = 0; i < points; i++) {
            values[i] = series.at(0, i);
        }
        return values;
    }
}
