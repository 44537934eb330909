package org.holdtrace.judge;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SplittableRandom;

/**
 * Goes through all leaks of the groups of a {@link LeakGrid} that the results of the tests leave room for, and adds up for
 * every set of worn elements how probable the results are. What is below a node of the {@link LeakOrder} is reckoned once
 * for every sum of leaks above it.
 */
final class LeakSums {
    /** Standard deviations beyond which a test leaves no room. */
    private static final double ROOM = 5;

    /** What a law is worth that no leak is there to tell: as if all were equal. */
    private static final double NO_LAW = 0.25;

    /** What looking up an outcome counts beside additions. */
    private static final int LOOKING_UP = 16;

    private final LeakGrid grid;
    private final double mostWork;
    private double work;
    /** What the groups above have added to each test, in quanta. */
    private final int[] sums;

    /** By test and sum of its leaks in quanta: density of what was measured, and what the law is worth. */
    private final double[][] density;

    private final double[][] lawWorth;
    /** By test: the sums its result leaves room for, in quanta. */
    private final int[] fewest;

    private final int[] most;

    private LeakSums(LeakGrid grid, double mostWork) {
        this.grid = grid;
        this.mostWork = mostWork;
        int tests = grid.testCount();
        sums = new int[tests];
        density = new double[tests][];
        lawWorth = new double[tests][];
        fewest = new int[tests];
        most = new int[tests];
        for (int t = 0; t < tests; t++) {
            double quantum = grid.quantumM3PerS(t);
            double measured = grid.measuredM3PerS(t);
            double below = grid.belowM3PerS(t);
            double above = grid.aboveM3PerS(t);
            fewest[t] = (int) Math.max(0, Math.ceil((measured - ROOM * below) / quantum));
            most[t] = (int) Math.max(fewest[t], Math.floor((measured + ROOM * above) / quantum));
            density[t] = new double[most[t] + 1];
            lawWorth[t] = new double[most[t] + 1];
            for (int k = fewest[t]; k <= most[t]; k++) {
                double off = k * quantum - measured;
                double z = off / (off > 0 ? above : below);
                density[t][k] = Math.exp(-0.5 * z * z) * 2 / (Math.sqrt(2 * Math.PI) * (below + above));
                lawWorth[t][k] = k > 0 ? 1 / (k * quantum) : NO_LAW;
            }
        }
    }

    /**
     * What came of it.
     *
     * @param likelihood how probable the results of the tests are, by set of worn elements (bit i: element i); empty where
     *     it gave up
     * @param work additions it took
     */
    record Outcome(Optional<double[]> likelihood, double work) {}

    /** Goes through all; {@code mostWork}: additions after which it gives up. */
    static Outcome of(LeakGrid grid, double mostWork) {
        LeakSums all = new LeakSums(grid, mostWork);
        LeakOrder order = LeakOrder.of(grid);
        double[] found = all.new Node(order).from(0);
        if (all.work > mostWork) {
            return new Outcome(Optional.empty(), all.work);
        }
        double[] likelihood = new double[found.length];
        for (int set = 0; set < found.length; set++) {
            int worn = 0;
            for (int i = 0; i < order.members().length; i++) {
                worn |= (set >> i & 1) << order.members()[i];
            }
            likelihood[worn] = found[set];
        }
        return new Outcome(Optional.of(likelihood), all.work);
    }

    /** Draws leaks of groups as the tests leave them. */
    static final class Draws {
        private final LeakSums all;
        private final LeakOrder order;
        private final Node root;

        Draws(LeakGrid grid) {
            all = new LeakSums(grid, Double.POSITIVE_INFINITY);
            order = LeakOrder.of(grid);
            root = all.new Node(order);
        }

        /** Multiples of its step that each group leaks with exactly the elements of {@code worn} worn; empty where none fit. */
        Optional<int[]> draw(int worn, SplittableRandom random) {
            int set = 0;
            for (int i = 0; i < order.members().length; i++) {
                set |= (worn >> order.members()[i] & 1) << i;
            }
            int[] drawn = new int[all.grid.groupCount()];
            return root.draw(set, 0, random, drawn) ? Optional.of(drawn) : Optional.empty();
        }
    }

    /** What is done at a leak of a group, a multiple of its step, where it tells the laws of {@code part}. */
    private interface Visit {
        void at(int multiple, int part, double weight);
    }

    /** Leaks of a group and laws they tell, each as probable as its step in {@code upTo}. */
    private record Choices(int[] multiple, int[] part, double[] upTo) {
        int draw(SplittableRandom random) {
            return pick(upTo, random);
        }
    }

    /** One of several, each as probable as its step in {@code upTo}. */
    static int pick(double[] upTo, SplittableRandom random) {
        int at = Arrays.binarySearch(upTo, random.nextDouble() * upTo[upTo.length - 1]);
        return Math.min(upTo.length - 1, at < 0 ? -at - 1 : at + 1);
    }

    /** A group with all below it. */
    private final class Node {
        private final int group;
        private final int[] tests;
        private final int[] closes;
        private final int[] context;
        private final Node[] branches;
        private final Series[] series;
        /** By test of the group and multiple of its step: the leak in quanta. */
        private final int[][] leaks;
        /** The laws its own group may tell, and those of tests that have groups above and here. */
        private final int tells;

        private final int toldAbove;
        /** By test: the least and the most that the groups below this one can add, in quanta. */
        private final long[] leastBelow;

        private final long[] mostBelow;
        private final int first;
        private final int last;
        private final int size;
        private final Outcomes known;
        private final Map<Long, Choices> drawnBefore = new HashMap<>();

        Node(LeakOrder order) {
            int g = order.group();
            group = g;
            tests = grid.testsOf(g);
            closes = order.closes();
            context = order.context();
            series = grid.series(g);
            size = 1 << order.members().length;
            branches = order.branches().stream().map(branch -> new Node(branch)).toArray(Node[]::new);
            leastBelow = new long[density.length];
            mostBelow = new long[density.length];
            for (Node branch : branches) {
                branch.addTo(leastBelow, mostBelow);
            }
            int least = Integer.MAX_VALUE;
            int greatest = 0;
            for (Series each : series) {
                least = Math.min(least, each.first());
                greatest = Math.max(greatest, each.last());
            }
            first = least;
            last = greatest;
            leaks = new int[tests.length][last + 1];
            for (int i = 0; i < tests.length; i++) {
                double quanta = grid.stepM3PerS(g) / grid.quantumM3PerS(tests[i]);
                for (int k = 0; k <= last; k++) {
                    leaks[i][k] = (int) Math.round(k * quanta);
                }
            }
            tells = laws(tests);
            toldAbove = laws(context);
            double numbers = 1 << grid.toldCount();
            for (int t : context) {
                numbers *= most[t] + 1;
            }
            known = new Outcomes(numbers);
        }

        private int laws(int[] of) {
            int laws = 0;
            for (int t : of) {
                laws |= grid.told(t) >= 0 ? 1 << grid.told(t) : 0;
            }
            return laws;
        }

        private void addTo(long[] least, long[] greatest) {
            for (int t = 0; t < least.length; t++) {
                least[t] += leastBelow[t];
                greatest[t] += mostBelow[t];
            }
            for (int i = 0; i < tests.length; i++) {
                least[tests[i]] += leaks[i][first];
                greatest[tests[i]] += leaks[i][last];
            }
        }

        /** How probable what this group and those below it close is, by set of their worn elements. */
        double[] from(int told) {
            long number = number(told & toldAbove);
            double[] found = known.get(number);
            if (found == null) {
                found = reckon(told & toldAbove);
                known.put(number, found);
            }
            return found;
        }

        /** What those above have told and added, as one number. */
        private long number(int told) {
            long number = told;
            for (int t : context) {
                number = number * (most[t] + 1) + sums[t];
            }
            return number;
        }

        private double[] reckon(int told) {
            double[] outcome = new double[size];
            each(told, (i, part, weight) -> collect(outcome, part, i, weight, below(told | part)));
            return outcome;
        }

        /** Goes through the leaks of its group that those above leave room for; while it visits one, {@code sums} has it. */
        private void each(int told, Visit visit) {
            int low = first;
            int high = last;
            for (int i = 0; i < tests.length; i++) {
                int t = tests[i];
                while (high >= low && leaks[i][high] > most[t] - sums[t] - leastBelow[t]) {
                    high--;
                }
                while (low <= high && leaks[i][low] < fewest[t] - sums[t] - mostBelow[t]) {
                    low++;
                }
            }
            int open = tells & ~told;
            for (int i = low; i <= high && work <= mostWork; i++) {
                add(i, 1);
                double dense = 1;
                for (int t : closes) {
                    dense *= density[t][sums[t]];
                }
                for (int part = open; ; part = (part - 1) & open) {
                    double weight = series[0].has(part) ? dense * lawsTold(told | part) : 0;
                    if (weight > 0) {
                        visit.at(i, part, weight);
                    }
                    if (part == 0) {
                        break;
                    }
                }
                add(i, -1);
            }
        }

        private Choices choices(int own, int rest, int above) {
            List<double[]> found = new ArrayList<>();
            double[] upTo = {0};
            each(above, (i, part, weight) -> {
                double one = weight * series[own].at(part, i) * below(above | part)[rest];
                if (one > 0) {
                    upTo[0] += one;
                    found.add(new double[] {i, part, upTo[0]});
                }
            });
            return new Choices(
                    found.stream().mapToInt(choice -> (int) choice[0]).toArray(),
                    found.stream().mapToInt(choice -> (int) choice[1]).toArray(),
                    found.stream().mapToDouble(choice -> choice[2]).toArray());
        }

        /**
         * Draws the leak of its group and those below it, with exactly the elements of {@code set} worn; false where there is
         * no room for them.
         */
        boolean draw(int set, int told, SplittableRandom random, int[] drawn) {
            int above = told & toldAbove;
            int own = set & series.length - 1;
            int rest = set / series.length;
            long number = number(above);
            Choices choices = drawnBefore.computeIfAbsent(number * size + set, key -> choices(own, rest, above));
            if (choices.upTo().length == 0) {
                return false;
            }
            int chosen = choices.draw(random);
            int multiple = choices.multiple()[chosen];
            int toldHere = above | choices.part()[chosen];
            drawn[group] = multiple;
            add(multiple, 1);
            boolean all = true;
            int left = rest;
            for (Node branch : branches) {
                all &= branch.draw(left & branch.size - 1, toldHere, random, drawn);
                left /= branch.size;
            }
            add(multiple, -1);
            return all;
        }

        private void add(int multiple, int sign) {
            for (int i = 0; i < tests.length; i++) {
                sums[tests[i]] += sign * leaks[i][multiple];
            }
        }

        /** The outcome of all branches together, by set of their worn elements. */
        private double[] below(int told) {
            if (branches.length == 1) {
                return branches[0].from(told);
            }
            double[] product = {1};
            for (Node branch : branches) {
                double[] own = branch.from(told);
                double[] longer = new double[product.length * own.length];
                for (int b = 0; b < own.length; b++) {
                    if (own[b] > 0) {
                        for (int a = 0; a < product.length; a++) {
                            longer[b * product.length + a] = product[a] * own[b];
                        }
                    }
                }
                product = longer;
            }
            return product;
        }

        private void collect(double[] outcome, int part, int i, double weight, double[] inner) {
            int own = series.length;
            work += outcome.length + LOOKING_UP;
            for (int worn = 0; worn < own; worn++) {
                double factor = weight * series[worn].at(part, i);
                if (factor > 0) {
                    for (int rest = 0; rest < inner.length; rest++) {
                        outcome[rest * own + worn] += factor * inner[rest];
                    }
                }
            }
        }

        /** Each law is told by the leaks in proportion to their size: with a leak one share of it, without nothing. */
        private double lawsTold(int told) {
            double product = 1;
            for (int t : closes) {
                int law = grid.told(t);
                if (law >= 0) {
                    if (sums[t] > 0 != ((told & 1 << law) != 0)) {
                        return 0;
                    }
                    product *= lawWorth[t][sums[t]];
                }
            }
            return product;
        }
    }
}
