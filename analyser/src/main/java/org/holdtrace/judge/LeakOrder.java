package org.holdtrace.judge;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.TreeSet;

/**
 * In which order the groups of a {@link LeakGrid} are gone through, as a tree: once the leaks of a node and of those above
 * it are fixed, its branches have no test in common and are reckoned each for itself.
 *
 * @param group which group
 * @param context tests that have groups above this node and in its branch: all it knows of those above is their sums
 * @param closes tests whose last group this is
 * @param branches the groups below, parted
 * @param members elements of its group and of all below it, those of its group first
 */
record LeakOrder(int group, int[] context, int[] closes, List<LeakOrder> branches, int[] members) {
    /** One for all groups of the grid, which must all be tied together. */
    static LeakOrder of(LeakGrid grid) {
        TreeSet<Integer> all = new TreeSet<>();
        for (int g = 0; g < grid.groupCount(); g++) {
            all.add(g);
        }
        return of(grid, all, all);
    }

    private static LeakOrder of(LeakGrid grid, TreeSet<Integer> left, TreeSet<Integer> all) {
        int best = best(grid, left);
        TreeSet<Integer> below = without(left, best);
        List<LeakOrder> branches = new ArrayList<>();
        int[] members = grid.members(best);
        for (TreeSet<Integer> part : parts(grid, below)) {
            LeakOrder branch = of(grid, part, all);
            branches.add(branch);
            members = Arrays.copyOf(members, members.length + branch.members().length);
            System.arraycopy(
                    branch.members(), 0, members, members.length - branch.members().length, branch.members().length);
        }
        TreeSet<Integer> above = new TreeSet<>(all);
        above.removeAll(left);
        TreeSet<Integer> context = testsOf(grid, left);
        context.retainAll(testsOf(grid, above));
        TreeSet<Integer> closes = testsOf(grid, new TreeSet<>(List.of(best)));
        closes.removeAll(testsOf(grid, below));
        return new LeakOrder(best, ints(context), ints(closes), branches, members);
    }

    /** The group whose leaving parts the others best; of equal ones one that is in a test of few groups, and in many tests. */
    private static int best(LeakGrid grid, TreeSet<Integer> left) {
        int best = -1;
        long least = Long.MAX_VALUE;
        for (int g : left) {
            int largest = 0;
            for (TreeSet<Integer> part : parts(grid, without(left, g))) {
                largest = Math.max(largest, part.size());
            }
            int fewest = Integer.MAX_VALUE;
            for (int t : grid.testsOf(g)) {
                fewest = Math.min(fewest, (int)
                        left.stream().filter(other -> isIn(grid, other, t)).count());
            }
            long cost = (largest * 1000L + fewest) * 1000L - grid.testsOf(g).length;
            if (cost < least) {
                least = cost;
                best = g;
            }
        }
        return best;
    }

    /** These groups parted so that no two parts have a test in common. */
    private static List<TreeSet<Integer>> parts(LeakGrid grid, TreeSet<Integer> groups) {
        List<TreeSet<Integer>> parts = new ArrayList<>();
        TreeSet<Integer> left = new TreeSet<>(groups);
        while (!left.isEmpty()) {
            TreeSet<Integer> part = new TreeSet<>(List.of(left.first()));
            int before = 0;
            while (part.size() > before) {
                before = part.size();
                TreeSet<Integer> tests = testsOf(grid, part);
                for (int g : left) {
                    if (tests.stream().anyMatch(t -> isIn(grid, g, t))) {
                        part.add(g);
                    }
                }
            }
            left.removeAll(part);
            parts.add(part);
        }
        return parts;
    }

    private static boolean isIn(LeakGrid grid, int g, int t) {
        return Arrays.stream(grid.testsOf(g)).anyMatch(test -> test == t);
    }

    private static TreeSet<Integer> testsOf(LeakGrid grid, TreeSet<Integer> groups) {
        TreeSet<Integer> tests = new TreeSet<>();
        for (int g : groups) {
            for (int t : grid.testsOf(g)) {
                tests.add(t);
            }
        }
        return tests;
    }

    private static TreeSet<Integer> without(TreeSet<Integer> groups, int g) {
        TreeSet<Integer> others = new TreeSet<>(groups);
        others.remove(g);
        return others;
    }

    private static int[] ints(TreeSet<Integer> values) {
        return values.stream().mapToInt(value -> value).toArray();
    }
}
