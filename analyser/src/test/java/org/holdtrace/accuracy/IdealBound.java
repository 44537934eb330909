package org.holdtrace.accuracy;

import static org.holdtrace.accuracy.Units.BAR;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.UnaryOperator;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.ArrayRealVector;
import org.apache.commons.math3.linear.CholeskyDecomposition;
import org.apache.commons.math3.linear.RealMatrix;
import org.apache.commons.math3.linear.RealVector;
import org.holdtrace.fluid.EntrainedAir;
import org.holdtrace.leak.Law;
import org.holdtrace.leak.LeakLaw;
import org.holdtrace.quantity.Quantity;
import org.holdtrace.rig.Heat;
import org.holdtrace.rig.Leaks;
import org.holdtrace.rig.OilFill;
import org.holdtrace.rig.ReplayedLine;
import org.holdtrace.rig.Rig;
import org.holdtrace.rig.Sensor;
import org.holdtrace.rig.Truth;
import org.holdtrace.rig.Walls;
import org.holdtrace.session.TestSetup;

/**
 * How well anybody could know the leak of a simulated test: the posterior (linear Gaussian, which is the Bayesian
 * Cramér–Rao bound) of one who knows the simulator's own equations, the noise of the transducer to the letter, how many
 * ways heat leaves, the family of the leak's law and the spread every quantity is drawn with, and only not the values drawn
 * for this test. The replay leaves out how the shut-off valve is shut, and takes what the strokes delivered and how the oil
 * thickens as known, so that it stays a bound. Whoever does not know all that does worse.
 */
final class IdealBound {
    /** Steps of the derivatives, in standard deviations of what is varied. */
    private static final double STEP = 0.02;

    private static final int HOLD_ROWS = 70;

    /** Logarithmic spread of a leak nobody knows anything of. */
    private static final double ANY = 2;

    /** What may differ from test to test: everything the replay needs. */
    private record State(
            OilFill fill,
            Walls walls,
            Heat heat,
            LeakLaw law,
            double[] strokeM3,
            double gain,
            double bow,
            double drift) {}

    private record Unknown(double spread, UnaryOperator<State> moved) {}

    private final SimulatedCase test;
    /** Whether neither the law nor in how many ways heat leaves is known. */
    private final boolean open;

    private final Rig rig;
    private final State truth;
    private final List<Unknown> unknowns = new ArrayList<>();
    private final double[] timeS;
    private final double[] lengthS;
    private final double leakPa;

    private IdealBound(SimulatedCase test, double leakPa, boolean open) {
        this.test = test;
        this.open = open;
        this.rig = test.truth().rig();
        this.leakPa = leakPa;
        List<Truth.Stroke> strokes = test.test().strokes();
        double[] volume = strokes.stream().mapToDouble(Truth.Stroke::volumeM3).toArray();
        truth = new State(rig.fill(), rig.walls(), rig.heat(), rig.leaks().component(), volume, 0, 0, 0);
        List<double[]> rows = rows(strokes);
        timeS = rows.stream().mapToDouble(r -> r[0]).toArray();
        lengthS = rows.stream().mapToDouble(r -> r[1]).toArray();
        addUnknowns();
    }

    /**
     * The least relative standard uncertainty of the leak at a pressure; empty where this does not apply: recordings of
     * several tests, without the pump-up, of more than 60 strokes, or of what does not leak there.
     *
     * @param open whether what passes a clearance may pass a seat as well and the other way round, and heat leaves by three
     *     ways, rather than by the law and the ways that were drawn
     */
    static Optional<Double> relative(SimulatedCase test, double leakPa, boolean open) {
        Rig rig = test.truth().rig();
        boolean applies = rig.tests().size() == 1
                && test.showsPumping()
                && test.test().strokes().size() <= 60
                && Double.isInfinite(rig.pump().reliefPa())
                && test.truth().leakM3PerS(leakPa) > 0
                && rig.leaks().component().flow(leakPa) > 0;
        return applies ? Optional.of(new IdealBound(test, leakPa, open).bound()) : Optional.empty();
    }

    /** Middles and lengths of the stretches looked at: two a pause, and the hold in stretches that grow. */
    private List<double[]> rows(List<Truth.Stroke> strokes) {
        List<double[]> rows = new ArrayList<>();
        for (int k = 0; k + 1 < strokes.size(); k++) {
            double pause = strokes.get(k + 1).startS() - strokes.get(k).endS();
            rows.add(new double[] {strokes.get(k).endS() + 0.3 * pause, 0.4 * pause});
            rows.add(new double[] {strokes.get(k).endS() + 0.75 * pause, 0.4 * pause});
        }
        double from = strokes.get(strokes.size() - 1).endS() + 0.05;
        double span = rig.tests().get(0).holdS() - 0.1;
        double growth = 1.06;
        double width = span * (growth - 1) / (Math.pow(growth, HOLD_ROWS) - 1);
        for (int k = 0; k < HOLD_ROWS; k++) {
            rows.add(new double[] {from + width / 2, width});
            from += width;
            width *= growth;
        }
        return rows;
    }

    private void addUnknowns() {
        TestSetup setup = test.setup();
        boolean cylinder = test.family().isCylinder();
        addFill(relative(setup.trappedVolumeM3(), cylinder ? 1.2 : 0.8), (f, x) -> fill(f, x, 0, 0, 0, 0, 0, 0));
        addFill(relative(setup.bulkModulusPa(), 0.08), (f, x) -> fill(f, 0, x, 0, 0, 0, 0, 0));
        addFill(0.52, (f, x) -> fill(f, 0, 0, x, 0, 0, 0, 0));
        addFill(0.05, (f, x) -> fill(f, 0, 0, 0, x, 0, 0, 0));
        addFill(setup.airFraction().isPresent() ? 0.5 : 0.72, (f, x) -> fill(f, 0, 0, 0, 0, x, 0, 0));
        addFill(0.07, (f, x) -> fill(f, 0, 0, 0, 0, 0, x, 0));
        addFill(7e-4, (f, x) -> fill(f, 0, 0, 0, 0, 0, 0, x));
        addWalls(0.2, (w, x) -> walls(w, x, 0, 0, 0, 0, 0));
        addWalls(0.8, (w, x) -> walls(w, 0, x, 0, 0, 0, 0));
        addWalls(0.16, (w, x) -> walls(w, 0, 0, x, 0, 0, 0));
        addWalls(0.58, (w, x) -> walls(w, 0, 0, 0, x, 0, 0));
        addWalls(0.014, (w, x) -> walls(w, 0, 0, 0, 0, x, 0));
        addWalls(0.66, (w, x) -> walls(w, 0, 0, 0, 0, 0, x));
        for (int i = 0; i < rig.heat().modes().size(); i++) {
            int mode = i;
            addHeat(0.95, (h, x) -> heat(h, mode, Math.exp(x), 0, 0));
            if (i > 0) {
                addHeat(0.1, (h, x) -> heat(h, mode, 1, x, 0));
            }
        }
        for (int i = rig.heat().modes().size(); open && i < 3; i++) {
            double share = i == 1 ? 0.15 : 0.04;
            addHeat(0.15, (h, x) -> anotherWay(h, share, x));
        }
        addHeat(0.35 / 3600, (h, x) -> heat(h, 0, 1, 0, x));
        addStrokes(setup);
        double accuracy = setup.transducerAccuracy().orElse(0.003);
        add(accuracy / Math.sqrt(3), (s, x) -> sensor(s, x, 0, 0));
        add(0.4 * accuracy / Math.sqrt(3), (s, x) -> sensor(s, 0, x, 0));
        add(0.55e-4 / 3600, (s, x) -> sensor(s, 0, 0, x));
        addLeak();
    }

    private void addStrokes(TestSetup setup) {
        double stated = relative(setup.pumpStrokeM3(), 1.0);
        int n = truth.strokeM3.length;
        add(stated, (s, x) -> strokes(s, 0, n, x));
        double full = rig.pump().strokeM3();
        for (int k = 0; k < n; k++) {
            int stroke = k;
            boolean part = test.test().strokes().get(k).cutShort();
            double scatter = part
                    ? 0.6 * full / Math.max(truth.strokeM3[k], 0.02 * full)
                    : rig.pump().scatter();
            add(scatter, (s, x) -> strokes(s, stroke, stroke + 1, x));
        }
    }

    /** The law's own numbers; who sees a clearance or a seat must allow for some of the other. */
    private void addLeak() {
        double scale = rig.tests().get(0).targetPa();
        double flow = truth.law.flow(scale);
        if (truth.law instanceof LeakLaw.Threshold valve) {
            add(ANY, (s, x) -> law(s, new LeakLaw.Threshold(valve.g() * Math.exp(x), valve.openingPa())));
            add(0.3, (s, x) -> law(s, new LeakLaw.Threshold(valve.g(), valve.openingPa() * Math.exp(x))));
            return;
        }
        Law law = truth.law.law();
        boolean both = open || law == Law.MIXED;
        if (both || law == Law.LAMINAR) {
            add(ANY * flow, (s, x) -> law(s, plus(s.law, x / scale, 0)));
        }
        if (both || law == Law.ORIFICE) {
            add(ANY * flow, (s, x) -> law(s, plus(s.law, 0, x / Math.sqrt(scale))));
        }
    }

    private static LeakLaw plus(LeakLaw law, double a, double b) {
        if (law instanceof LeakLaw.Thickening thick) {
            return new LeakLaw.Thickening(thick.a() + a, thick.b() + b, thick.perPa());
        }
        if (law instanceof LeakLaw.Laminar clearance) {
            return b == 0 ? new LeakLaw.Laminar(clearance.a() + a) : new LeakLaw.Mixed(clearance.a() + a, b);
        }
        if (law instanceof LeakLaw.Orifice seat) {
            return a == 0 ? new LeakLaw.Orifice(seat.b() + b) : new LeakLaw.Mixed(a, seat.b() + b);
        }
        LeakLaw.Mixed mixed = (LeakLaw.Mixed) law;
        return new LeakLaw.Mixed(mixed.a() + a, mixed.b() + b);
    }

    private double bound() {
        int n = unknowns.size();
        double[] at = observed(truth);
        double leak = truth.law.flow(leakPa);
        int rows = timeS.length;
        RealMatrix slope = new Array2DRowRealMatrix(rows, n);
        RealVector leakSlope = new ArrayRealVector(n);
        double[] bledSlope = new double[n];
        double[] lineSlope = new double[n];
        double line = lineM3PerPa(truth);
        for (int v = 0; v < n; v++) {
            State moved = unknowns.get(v).moved.apply(truth);
            double[] there = observed(moved);
            for (int i = 0; i < rows; i++) {
                slope.setEntry(i, v, (there[i] - at[i]) / STEP);
            }
            bledSlope[v] = (there[rows] / at[rows] - 1) / STEP;
            lineSlope[v] = (lineM3PerPa(moved) / line - 1) / STEP;
            leakSlope.setEntry(v, (moved.law.flow(leakPa) / leak - 1) / STEP);
        }
        RealMatrix whitened =
                new CholeskyDecomposition(noise(), 1e-6, 1e-300).getSolver().solve(slope);
        double[][] known = slope.transpose().multiply(whitened).getData();
        for (int v = 0; v < n; v++) {
            known[v][v] += 1;
        }
        test.setup().bledVolumeM3().ifPresent(q -> addStated(known, bledSlope, q));
        test.setup().lineComplianceM3PerPa().ifPresent(q -> addStated(known, lineSlope, q));
        RealVector y = new CholeskyDecomposition(new Array2DRowRealMatrix(known), 1e-6, 1e-300)
                .getSolver()
                .solve(leakSlope);
        return Math.sqrt(y.dotProduct(leakSlope));
    }

    private static void addStated(double[][] known, double[] slope, Quantity stated) {
        double weight = 1 / (stated.relativeUncertainty() * stated.relativeUncertainty());
        for (int a = 0; a < slope.length; a++) {
            for (int b = 0; b < slope.length; b++) {
                known[a][b] += weight * slope[a] * slope[b];
            }
        }
    }

    /** Covariance of the rows, bar²: white and coloured noise and the walk as simulated, and a thousandth of a bar. */
    private RealMatrix noise() {
        Sensor.Noise noise = rig.sensor().noise();
        int n = timeS.length;
        double[][] c = new double[n][n];
        double coloured = noise.colouredPa() / BAR;
        double walk = noise.walkPaPerRootS() / BAR;
        double white = noise.whitePa() / BAR;
        for (int i = 0; i < n; i++) {
            for (int j = 0; j < n; j++) {
                double apart = Math.abs(timeS[i] - timeS[j]);
                c[i][j] = coloured * coloured * Math.exp(-apart / noise.colouredS())
                        + walk * walk * Math.min(timeS[i], timeS[j]);
            }
            double samples = Math.max(1, lengthS[i] * rig.sensor().rateHz());
            c[i][i] += white * white / samples + 1e-6;
        }
        return new Array2DRowRealMatrix(c);
    }

    private double[] observed(State s) {
        double[] out = ReplayedLine.run(
                s.fill,
                s.walls,
                s.heat,
                Leaks.of(s.law),
                rig.tests().get(0).drainedM3(),
                test.test().strokes(),
                s.strokeM3,
                timeS);
        double span = rig.sensor().scale().maxPa() / BAR;
        for (int i = 0; i < timeS.length; i++) {
            double bar = out[i] / BAR;
            double u = bar / span;
            out[i] = bar * (1 + s.gain) + s.bow * span * 4 * u * (1 - u) + s.drift * span * timeS[i];
        }
        return out;
    }

    private double lineM3PerPa(State s) {
        double pa = test.test().peakPa();
        double hose = s.walls.hoseM3PerPa()
                * (s.walls.hoseStiffShare() + (1 - s.walls.hoseStiffShare()) / (1 + pa / s.walls.hoseStiffeningPa()));
        double decades = Math.max(0, Math.log10(10 / s.walls.creepFromS()));
        return s.walls.rigidM3PerPa() + hose * (1 + s.walls.creepPerDecade() * decades);
    }

    private static double relative(Optional<Quantity> stated, double otherwise) {
        return stated.map(Quantity::relativeUncertainty).orElse(otherwise);
    }

    private interface Moved<T> {
        T by(T what, double x);
    }

    private void add(double spread, Moved<State> moved) {
        unknowns.add(new Unknown(spread, s -> moved.by(s, spread * STEP)));
    }

    private void addFill(double spread, Moved<OilFill> moved) {
        add(
                spread,
                (s, x) -> new State(moved.by(s.fill, x), s.walls, s.heat, s.law, s.strokeM3, s.gain, s.bow, s.drift));
    }

    private void addWalls(double spread, Moved<Walls> moved) {
        add(
                spread,
                (s, x) -> new State(s.fill, moved.by(s.walls, x), s.heat, s.law, s.strokeM3, s.gain, s.bow, s.drift));
    }

    private void addHeat(double spread, Moved<Heat> moved) {
        add(
                spread,
                (s, x) -> new State(s.fill, s.walls, moved.by(s.heat, x), s.law, s.strokeM3, s.gain, s.bow, s.drift));
    }

    private static State law(State s, LeakLaw law) {
        return new State(s.fill, s.walls, s.heat, law, s.strokeM3, s.gain, s.bow, s.drift);
    }

    private static State sensor(State s, double gain, double bow, double drift) {
        return new State(s.fill, s.walls, s.heat, s.law, s.strokeM3, s.gain + gain, s.bow + bow, s.drift + drift);
    }

    private static State strokes(State s, int from, int to, double x) {
        double[] volume = s.strokeM3.clone();
        for (int k = from; k < to; k++) {
            volume[k] *= Math.exp(x);
        }
        return new State(s.fill, s.walls, s.heat, s.law, volume, s.gain, s.bow, s.drift);
    }

    private static OilFill fill(
            OilFill f,
            double volume,
            double modulus,
            double slope,
            double heating,
            double air,
            double index,
            double rate) {
        double dissolving = rate + (Double.isInfinite(f.airDissolvingS()) ? 0 : 1 / f.airDissolvingS());
        return new OilFill(
                f.volumeM3() * Math.exp(volume),
                f.modulusPa() * Math.exp(modulus),
                f.secantSlope() + slope,
                f.expansionPerK(),
                f.temperatureK(),
                f.heatingKPerPa() * Math.exp(heating),
                new EntrainedAir(f.air().fraction() * Math.exp(air), f.air().polytropicIndex() + index),
                dissolving > 0 ? 1 / dissolving : Double.POSITIVE_INFINITY);
    }

    private static Walls walls(
            Walls w, double rigid, double hose, double share, double stiffening, double creep, double creepFrom) {
        return new Walls(
                w.rigidM3PerPa() * Math.exp(rigid),
                w.hoseM3PerPa() * Math.exp(hose),
                Math.min(1, w.hoseStiffShare() - share),
                w.hoseStiffeningPa() * Math.exp(stiffening),
                w.creepPerDecade() + creep,
                w.creepFromS() * Math.exp(creepFrom),
                w.creepToS(),
                w.expansionPerK());
    }

    private static Heat anotherWay(Heat h, double shareOfTime, double weight) {
        List<Heat.Mode> modes = new ArrayList<>(h.modes());
        Heat.Mode slow = modes.get(0);
        modes.set(0, new Heat.Mode(slow.tauS(), slow.weight() - weight));
        modes.add(new Heat.Mode(slow.tauS() * shareOfTime, weight));
        return new Heat(modes, h.driftKPerS(), h.swingK(), h.swingPeriodS());
    }

    private static Heat heat(Heat h, int mode, double time, double weight, double drift) {
        List<Heat.Mode> modes = new ArrayList<>(h.modes());
        Heat.Mode old = modes.get(mode);
        modes.set(mode, new Heat.Mode(old.tauS() * time, old.weight() + weight));
        if (weight != 0) {
            Heat.Mode first = modes.get(0);
            modes.set(0, new Heat.Mode(first.tauS(), first.weight() - weight));
        }
        return new Heat(modes, h.driftKPerS() + drift, h.swingK(), h.swingPeriodS());
    }
}
