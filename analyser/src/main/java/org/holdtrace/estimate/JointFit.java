package org.holdtrace.estimate;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.holdtrace.leak.Law;

/**
 * Finds the {@link Joint} fit of a hold test step by step, each with what the last one told: strokes that were not what
 * they seemed, where a valve opens, the noise, and in the end all laws with all time constants that are left.
 */
final class JointFit {
    /** Spread of an opening pressure about the one tried in the first search, bar a bar of the peak and 1/s: any. */
    private static final double WIDE_SHIFT = 0.1;

    /**
     * Lasting noise supposed in the first fits, as a share of the peak: more than a transducer has, so that a law which is
     * nearly right is found before priors are bent to save one that is wrong.
     */
    private static final double FIRST_COLOUR = 0.001;

    /** Pairs of time constants that are tried again once the noise is known. */
    private static final int LIKELY = 12;

    /** Half of chi-square by which a fit must be better for a valve to seep besides: less is within a little seeping. */
    private static final double SEEPS = 8;

    /** Half of chi-square by which a valve must fit better than what leaks at any pressure for its curve to be looked into. */
    private static final double OPENS = 1;

    /** Noise is learned after the shut-off valve was shut, where so much of what the hold loses is lost then. */
    private static final double MOST_LOST = 0.5;

    /** Which variable the seeping of a threshold is. */
    private static final int SEEP_AT = Knowledge.COUNT + 2;

    /** Fewer rows than this tell nothing. */
    private static final int FEWEST_ROWS = 4;

    private final Knowledge knowledge;
    private final double strokeBar;
    private final LeakShape laminar;
    private final LeakShape orifice;
    private final LeakShape mixed;

    private boolean[] unknown;
    /** The clearance of the first look, free to pass a little more or less than in proportion. */
    private LeakShape curved;

    private Reduction data;
    private int[] rows;
    private ModelError errors;
    private Noise noise;
    private Evidence evidence;
    /** The best of all that was tried. */
    private NodeFit best;

    /**
     * @param data the samples, reduced
     * @param unknown the strokes {@code data} takes as of unknown size
     * @param knowledge what is known beforehand
     * @param strokeBar what a full stroke raises the pressure by, bar
     */
    JointFit(Reduction data, boolean[] unknown, Knowledge knowledge, double strokeBar) {
        this.data = data;
        this.unknown = unknown;
        this.knowledge = knowledge;
        this.strokeBar = strokeBar;
        this.laminar = LeakShape.laminar();
        this.orifice = LeakShape.orifice(knowledge.normBar);
        this.mixed = LeakShape.mixed(knowledge.normBar);
    }

    /**
     * The fit; empty where too little of the test can be used.
     *
     * @param wide opening pressures to begin with
     * @param roughCompliance what strokes alone suggest, cm³/bar, or NaN
     * @param leakBar pressure the leak is to be stated at, bar
     */
    Optional<Joint> find(OpeningGrid wide, double roughCompliance, double leakBar) {
        rows = usableRows();
        if (rows.length < FEWEST_ROWS) {
            return Optional.empty();
        }
        noise = firstNoise();
        gather();
        firstLook();
        // What the first fit leaves over tells of strokes that were not what they seemed.
        boolean[] doubtful = StrokeResiduals.doubtful(evidence, best, strokeBar, unknown);
        if (!Arrays.equals(doubtful, unknown)) {
            unknown = doubtful;
            data = data.withUnknown(unknown);
            rows = usableRows();
            gather();
            firstLook();
        }
        List<LeakShape> shapes = new ArrayList<>(List.of(laminar, curved, LeakShape.none(), orifice, mixed));
        shapes.addAll(openings(wide));
        return Optional.of(
                new Joint(data, rows, noise, errors, knowledge, roughCompliance, leakBar, weighed(shapes), unknown));
    }

    private void gather() {
        errors = ModelError.of(data, knowledge, strokeBar);
        evidence = Evidence.of(data, rows, noise, errors);
    }

    private void firstLook() {
        Posterior first = Posterior.explore(evidence, knowledge, List.of(laminar, orifice), Posterior.coarsePairs());
        NodeFit straight = first.best(Law.LAMINAR);
        curved = laminar.curved(conductance(straight));
        best = better(straight, first.best(Law.ORIFICE));
    }

    /**
     * Thresholds close about the opening pressure that fits best; none where no threshold fits. Not about the most probable
     * one: where hardly anything was seen of a valve, its conductance may be what it likes, and so much room counts for it.
     */
    private List<LeakShape> openings(OpeningGrid wide) {
        use(wide);
        List<LeakShape> coarse = new ArrayList<>(List.of(laminar, orifice));
        coarse.addAll(wide.thresholds(WIDE_SHIFT * data.peakBar, false));
        Posterior found =
                Posterior.explore(evidence, knowledge, likelyFirst(coarse, best.shape.law()), Posterior.coarsePairs());
        NodeFit tight = found.leastCost(Law.THRESHOLD);
        NodeFit seeping = Posterior.explore(
                        evidence, knowledge, wide.thresholds(WIDE_SHIFT * data.peakBar, true), found.likelyPairs(2))
                .leastCost(Law.THRESHOLD);
        boolean seeps =
                seeping != null && seeping.x[SEEP_AT] > 0 && (tight == null || seeping.cost < tight.cost - SEEPS);
        NodeFit open = seeps ? seeping : tight;
        NodeFit always = better(found.best(Law.LAMINAR), found.best(Law.ORIFICE));
        best = better(always, open);
        if (open == null) {
            return List.of();
        }
        OpeningGrid finer = wide.about(open.opening());
        use(finer);
        double close = shift(open, finer);
        NodeFit closer = Posterior.explore(evidence, knowledge, finer.thresholds(close, seeps), found.likelyPairs(3))
                .leastCost(Law.THRESHOLD);
        open = closer == null ? open : closer;
        best = better(best, open);
        OpeningGrid finest = finer.about(open.opening());
        double shift = shift(open, finest);
        OpeningGrid bending = finest.bendingAbove(open.opening(), data.peakBar);
        use(bending);
        // The best and its neighbours, each of which may still move, cover what is left.
        List<LeakShape> shapes = bending.straight(open.opening(), shift, seeps);
        // Where nothing speaks for a valve, how it would open is no matter.
        if (always == null || open.cost < always.cost - OPENS) {
            shapes.addAll(bending.valves(open.opening(), data.peakBar, shift, conductance(open), seeps));
        }
        return shapes;
    }

    private void use(OpeningGrid grid) {
        data = data.withThresholds(grid.bar());
        evidence = evidence.withThresholds(data);
    }

    /** Lets an opening pressure move by the distance to the next, were the conductance three times that of {@code open}. */
    private static double shift(NodeFit open, OpeningGrid grid) {
        return conductance(open) * grid.spacingBar();
    }

    private static double conductance(NodeFit open) {
        return Math.max(1e-6, Math.abs(open.x[Knowledge.COUNT]) * open.shape.scale()[0]);
    }

    /** All of {@code shapes} weighed, once the noise is known: what the best of all laws leaves over. */
    private Posterior weighed(List<LeakShape> shapes) {
        // First for the noise alone: the likely law, none at all and two terms together tell that.
        learnNoise();
        LeakShape likely = likelyFirst(shapes, best.shape.law()).get(0);
        Posterior rough =
                Posterior.explore(evidence, knowledge, List.of(likely, LeakShape.none(), mixed), Posterior.pairs());
        best = rough.leastCost();
        learnNoise();
        return Posterior.explore(evidence, knowledge, likelyFirst(shapes, best.shape.law()), rough.likelyPairs(LIKELY));
    }

    private void learnNoise() {
        noise = residualNoise();
        evidence = Evidence.of(data, rows, noise, errors);
    }

    /** The same laws, the likely one first: the pairs of time constants that suit it are those the others are tried with. */
    private static List<LeakShape> likelyFirst(List<LeakShape> shapes, Law likely) {
        int count = 0;
        for (LeakShape shape : shapes) {
            count += shape.law() == likely ? 1 : 0;
        }
        // Of several opening pressures the one in the middle.
        int wanted = count / 2;
        List<LeakShape> out = new ArrayList<>(shapes);
        for (int k = 0; k < shapes.size(); k++) {
            if (shapes.get(k).law() == likely && wanted-- == 0) {
                // Moved by its place: looking for it would ask for the equality of records, which is linked at run
                // time.
                out.add(0, out.remove(k));
            }
        }
        return out;
    }

    private static NodeFit better(NodeFit a, NodeFit b) {
        if (a == null || b == null) {
            return a == null ? b : a;
        }
        return a.cost <= b.cost ? a : b;
    }

    private int[] usableRows() {
        double least = Math.max(0.3, 0.015 * knowledge.normBar);
        int[] usable = new int[data.rows];
        int n = 0;
        for (int i = 0; i < data.rows; i++) {
            if (data.kind[i] == Reduction.Kind.END || data.pressureBar[i] > least) {
                usable[n++] = i;
            }
        }
        return Arrays.copyOf(usable, n);
    }

    private Noise firstNoise() {
        return new Noise(
                data.sampleNoiseBar,
                Math.max(0.5 * data.sampleNoiseBar, FIRST_COLOUR * data.peakBar),
                1,
                1e-4,
                data.quantumBar,
                0.02,
                0);
    }

    /** The pressure lost in the hold, or in that of it which lies after the shut-off valve was shut, bar. */
    private double lostBar(boolean shut) {
        double low = Double.POSITIVE_INFINITY;
        double high = Double.NEGATIVE_INFINITY;
        for (int row : rows) {
            if (data.kind[row] == Reduction.Kind.HOLD && (errors.unshut()[row] == 0 || !shut)) {
                low = Math.min(low, data.pressureBar[row]);
                high = Math.max(high, data.pressureBar[row]);
            }
        }
        return Math.max(0, high - low);
    }

    private Noise residualNoise() {
        double[] residual = evidence.rawResidual(best.gamma);
        // What happens until the shut-off valve is shut has an error of its own, and is no noise, unless it is all
        // there is.
        boolean shutTells = lostBar(true) > MOST_LOST * lostBar(false);
        int n = 0;
        double[] t = new double[residual.length];
        double[] length = new double[residual.length];
        double[] r = new double[residual.length];
        int[] samples = new int[residual.length];
        for (int i = 0; i < residual.length; i++) {
            int row = evidence.row[i];
            if (data.kind[row] == Reduction.Kind.HOLD && (errors.unshut()[row] == 0 || !shutTells)) {
                t[n] = data.timeS[row];
                length[n] = data.lengthS[row];
                samples[n] = data.samples[row];
                r[n++] = residual[i];
            }
        }
        double scatter = StrokeResiduals.scatter(evidence, residual, strokeBar);
        double tail = StrokeResiduals.withinTails(evidence, residual);
        Noise base = new Noise(noise.whiteBar(), 0, 1, noise.walkBar(), noise.quantumBar(), scatter, tail);
        return NoiseFit.estimate(
                Arrays.copyOf(t, n), Arrays.copyOf(length, n), Arrays.copyOf(samples, n), Arrays.copyOf(r, n), base, 5);
    }
}
