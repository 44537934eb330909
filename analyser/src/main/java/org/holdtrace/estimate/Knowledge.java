package org.holdtrace.estimate;

import static org.holdtrace.estimate.Columns.ATMOSPHERE_BAR;

import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;
import org.holdtrace.quantity.Quantity;
import org.holdtrace.session.TestSetup;

/**
 * What is known of the test line before the samples are looked at, as independent standard normal variables x, and the
 * map from x to the coefficients of the volume balance. Stated inputs come with their stated uncertainty; what was not
 * stated gets the range that physics and the trade leave open.
 */
final class Knowledge {
    /** Growth of the tangent modulus with pressure, relative to its value at low pressure, 1/bar (BM-04: about 11 K'). */
    static final double STIFFENING_PER_BAR = 10.8e5 / 1.45e9;
    /** Time in which free air goes into solution, s; order of magnitude. */
    static final double DISSOLVING_S = 120;
    /** Thermal expansion of mineral oil near 20–40 °C less that of a steel wall, 1/K (TH-03, TH-04). */
    static final double EXPANSION_PER_K = 7.0e-4;

    /** The variables. */
    static final int VOLUME = 0;

    static final int MODULUS = 1;
    static final int LINE = 2;
    static final int AIR = 3;
    static final int HEAT = 4;
    static final int HEAT_SPLIT = 5;
    static final int STIFFENING = 6;
    static final int HOSE_CURVE = 7;
    static final int CREEP = 8;
    static final int DISSOLVING = 9;
    static final int SMALL_BUBBLES = 10;
    static final int DRIFT = 11;
    static final int STROKE = 12;
    static final int BLED = 13;
    static final int GAIN = 14;
    static final int AMBIENT = 15;
    static final int OIL_SENSOR = 16;
    static final int LARGE_BUBBLES = 17;
    static final int PUMP_LOSS = 18;
    static final int COUNT = 19;

    static final String[] NAME = {
        "trapped volume",
        "bulk modulus",
        "line compliance",
        "entrained air",
        "heat of compression",
        "heat of compression",
        "modulus against pressure",
        "hose stiffening",
        "hose creep",
        "dissolving air",
        "compression of air",
        "temperature drift",
        "pump stroke",
        "bled volume",
        "transducer",
        "ambient temperature",
        "oil temperature",
        "compression of air",
        "pump stroke"
    };

    /** Columns of the creep spectrum: a logarithmic creep is a sum of exponentials a factor of 4 apart. */
    private static final int[] CREEP_COLUMN = {0, 2, 4, 6, 8, 10, 12};

    /**
     * Decades of the creep spectrum in a compliance as people state it, lg 4 Σ (1 − e^(−t/τ)) of a reading some two seconds
     * after pressure was put on; none where it was calculated, 1.7 where it was read after ten seconds.
     */
    private static final double MEASURED_DECADES = 1;

    /** Nothing stiffens to less than this share of what it was. */
    private static final double LEAST_LEFT = 0.2;

    /** What a hose creeps by in a decade of time, as a share of what it swells by at once: an order of magnitude. */
    private static final double CREEP_PER_DECADE = 0.03;

    /** By which share a hose swells less for every bar it is under already, 1/bar. */
    private static final double HOSE_CURVE_PER_BAR = 0.0006;

    private static final double CREEP_DECADES = Math.log10(4);

    private static final int[] SIZES = {VOLUME, MODULUS, LINE, AIR, HEAT, STIFFENING, HOSE_CURVE, CREEP, GAIN};

    private final Prior[] prior;
    final boolean volumeStated;
    final boolean strokeStated;
    final boolean bledStated;
    final boolean lineStated;
    /** Pressure the compliance is normalised at, bar. */
    final double normBar;

    private Knowledge(
            Prior[] prior,
            boolean volumeStated,
            boolean lineStated,
            boolean strokeStated,
            boolean bledStated,
            double normBar) {
        this.prior = prior;
        this.volumeStated = volumeStated;
        this.lineStated = lineStated;
        this.strokeStated = strokeStated;
        this.bledStated = bledStated;
        this.normBar = normBar;
    }

    /**
     * @param setup what was stated
     * @param roughCompliance what the strokes suggest for dV/dp in cm³/bar, NaN where there are none
     * @param normBar pressure the compliance is normalised at
     * @param oil what grade and temperature tell
     * @param pumpingSeen whether the pump-up is in the trace; where it is not, nobody knows how much heat has gone already
     */
    static Knowledge of(TestSetup setup, double roughCompliance, double normBar, OilPrior oil, boolean pumpingSeen) {
        Prior[] p = new Prior[COUNT];
        boolean volume = setup.trappedVolumeM3().isPresent();
        boolean line = setup.lineComplianceM3PerPa().isPresent();
        boolean stroke = setup.pumpStrokeM3().isPresent();
        Prior modulus = stated(setup.bulkModulusPa(), 0.003, 1e-5, Prior.order(oil.modulusBar(), oil.modulusSpread()));
        p[MODULUS] = modulus;
        Prior statedLine =
                line ? Prior.of(statedLine(setup.lineComplianceM3PerPa().get(), normBar), 1e11) : null;
        boolean cylinder = setup.componentKind().isPresent()
                && setup.componentKind().get().toLowerCase(Locale.ROOT).contains("cylinder");
        if (volume) {
            p[VOLUME] = Prior.of(atLeast(setup.trappedVolumeM3().orElseThrow(), 0.002), 1e6);
        } else if (roughCompliance > 0) {
            double oilShare = statedLine != null
                    ? Math.max(0.1 * roughCompliance, roughCompliance - statedLine.centre())
                    : (cylinder ? 0.85 : 0.55) * roughCompliance;
            p[VOLUME] = Prior.order(oilShare * modulus.centre(), statedLine != null ? 0.4 : 0.5);
        } else {
            p[VOLUME] = Prior.order(cylinder ? 1500 : 150, cylinder ? 1.3 : 1.8);
        }
        if (statedLine != null) {
            p[LINE] = statedLine;
        } else if (roughCompliance > 0) {
            double rest = roughCompliance - (volume ? p[VOLUME].centre() / modulus.centre() : 0.6 * roughCompliance);
            p[LINE] = Prior.order(Math.max(rest, 0.15 * roughCompliance), 0.7);
        } else {
            // A hose holds no more than the whole line does.
            p[LINE] = Prior.order(volume ? Math.min(0.012, 2e-4 * p[VOLUME].centre()) : 0.012, 1.2);
        }
        p[AIR] = setup.airFraction().isPresent()
                ? Prior.ofAir(setup.airFraction().get())
                : Prior.order(0.005, 0.8);
        p[HEAT] = pumpingSeen
                ? Prior.order(oil.heatShare(), 0.18)
                : Prior.plain(0.5 * oil.heatShare(), 0.4 * oil.heatShare());
        p[HEAT_SPLIT] = Prior.plain(0, 1.2);
        p[STIFFENING] = Prior.order(STIFFENING_PER_BAR * 1.45e4 / modulus.centre(), 0.15);
        p[HOSE_CURVE] = Prior.plain(HOSE_CURVE_PER_BAR, 0.0016);
        p[CREEP] = Prior.order(CREEP_PER_DECADE, 0.9);
        p[DISSOLVING] = Prior.order(0.15, 0.9);
        // Most air is in bubbles that follow at once; some may be in pockets that take seconds to cool.
        p[SMALL_BUBBLES] = Prior.plain(0.35, 0.3);
        p[LARGE_BUBBLES] = Prior.plain(0.15, 0.2);
        p[DRIFT] = Prior.plain(0, 0.008 / 60);
        p[STROKE] = stated(setup.pumpStrokeM3(), 0.001, 1e6, Prior.order(0.6, 2.0));
        p[BLED] = stated(setup.bledVolumeM3(), 0.003, 1e6, Prior.plain(0, 0));
        double accuracy = setup.transducerAccuracy().orElse(0.005);
        double span =
                (setup.transducerMaxPa().orElse(250e5) - setup.transducerMinPa().orElse(0.0)) / 1e5;
        // A gain error is stated as a fraction of the span; at the pressure of the test it weighs more.
        p[GAIN] = Prior.plain(0, Math.min(0.03, accuracy * Math.max(1, 0.5 * (1 + span / Math.max(normBar, 1)))));
        // A sensor in the room or in the tank is not in the trapped oil: how far that follows is open.
        p[AMBIENT] = Prior.plain(0.5, 0.4);
        p[OIL_SENSOR] = Prior.plain(0.8, 0.3);
        // What is in the pump is compressed before it delivers: a stroke pumped into a beaker is a little less in the
        // line.
        p[PUMP_LOSS] = Prior.plain(0.00005, 0.00007);
        return new Knowledge(p, volume, line, stroke, setup.bledVolumeM3().isPresent(), normBar);
    }

    /** The same with volume, oil and line taken as not known, so that strokes or bled oil must tell. */
    Knowledge withoutVolume(double roughCompliance) {
        Prior[] p = prior.clone();
        double c = roughCompliance > 0
                ? roughCompliance
                : prior[VOLUME].centre() / prior[MODULUS].centre() + prior[LINE].centre();
        double oilShare = prior[VOLUME].centre() / prior[MODULUS].centre();
        double share = Math.min(0.95, Math.max(0.05, oilShare / (oilShare + prior[LINE].centre())));
        p[VOLUME] = Prior.order(share * c * prior[MODULUS].centre(), 0.5);
        p[LINE] = Prior.order((1 - share) * c, 0.7);
        return new Knowledge(p, false, false, strokeStated, false, normBar);
    }

    /** The same with the stroke taken as not known. */
    Knowledge withoutStroke() {
        Prior[] p = prior.clone();
        p[STROKE] = Prior.order(prior[STROKE].centre(), 1.5);
        return new Knowledge(p, volumeStated, lineStated, false, bledStated, normBar);
    }

    private static Prior stated(Optional<Quantity> quantity, double leastRelative, double toUnit, Prior otherwise) {
        return quantity.isPresent() ? Prior.of(atLeast(quantity.get(), leastRelative), toUnit) : otherwise;
    }

    /**
     * A line's compliance is stated for the way from nothing to the pressure of the test, for its end or for its
     * beginning, and at once or after some seconds: nobody says. It is taken for that of the middle, and the way to either
     * end as a rectangular error.
     */
    private static Quantity statedLine(Quantity q, double normBar) {
        double where = HOSE_CURVE_PER_BAR * normBar / Math.sqrt(12);
        double when = CREEP_PER_DECADE * 2 * MEASURED_DECADES / Math.sqrt(12);
        double stated = atLeast(q, 0.003).relativeUncertainty();
        return new Quantity(q.value(), Math.abs(q.value()) * Math.sqrt(stated * stated + where * where + when * when));
    }

    /** What a hose and its fittings swell by per bar at {@code bar}: less and less, {@link #LINE} in the middle of the way. */
    private double line(double[] value, double bar) {
        return elastic(value) * (1 + value[HOSE_CURVE] * (0.5 * normBar - bar));
    }

    /** Whoever measures what a line swells by has a few seconds of its creep in the figure. */
    private static double elastic(double[] value) {
        return value[LINE] / (1 + value[CREEP] * MEASURED_DECADES);
    }

    /** A stated uncertainty of nothing is taken as a small one: nobody measures exactly. */
    private static Quantity atLeast(Quantity q, double relative) {
        return q.relativeUncertainty() >= relative ? q : new Quantity(q.value(), relative * Math.abs(q.value()));
    }

    /** The variables somebody stated. */
    int[] stated() {
        int[] variable = {VOLUME, LINE, STROKE, BLED};
        boolean[] said = {volumeStated, lineStated, strokeStated, bledStated};
        int n = 0;
        for (int i = 0; i < variable.length; i++) {
            if (said[i]) {
                variable[n++] = variable[i];
            }
        }
        return Arrays.copyOf(variable, n);
    }

    /** What a variable is in working units where its standard normal is {@code x}. */
    double value(int variable, double x) {
        Prior p = prior[variable];
        return switch (variable) {
            case HEAT_SPLIT -> 1 / (1 + Math.exp(-p.eitherSign(x)));
            case GAIN -> 1 + p.eitherSign(x);
            case HOSE_CURVE, SMALL_BUBBLES, LARGE_BUBBLES, DRIFT, AMBIENT, OIL_SENSOR, PUMP_LOSS -> p.eitherSign(x);
            default -> p.at(x);
        };
    }

    /** All variables in working units, into {@code value}. */
    void values(double[] x, double[] value) {
        for (int v = 0; v < COUNT; v++) {
            value[v] = value(v, x[v]);
        }
    }

    /** Those of the variables that {@link #compliance} and {@link #isothermalCompliance} ask for. */
    void sizes(double[] x, double[] value) {
        for (int v : SIZES) {
            value[v] = value(v, x[v]);
        }
    }

    /** What is thought of all variables beforehand, in working units. */
    double[] expected() {
        double[] value = new double[COUNT];
        values(new double[COUNT], value);
        return value;
    }

    Prior prior(int variable) {
        return prior[variable];
    }

    /** The compliance a fast change of pressure sees at {@link #normBar}, cm³ per bar as measured. */
    double compliance(double[] value) {
        double volume = value[VOLUME];
        double oil = volume / value[MODULUS];
        double fast = oil - heat(value) * oil;
        double c =
                fast + stiffened(oil, value, normBar) + line(value, normBar) + volume * value[AIR] * airSlope(normBar);
        return Math.max(c, LEAST_LEFT * (fast + value[LINE])) / value[GAIN];
    }

    private static double heat(double[] value) {
        return Math.min(0.9, value[HEAT]);
    }

    /** What a modulus that grows with pressure adds to the compliance of the oil at {@code bar}: less than nothing. */
    private static double stiffened(double oil, double[] value, double bar) {
        return oil * value[STIFFENING] / STIFFENING_PER_BAR * (1 / (1 + STIFFENING_PER_BAR * bar) - 1);
    }

    /**
     * Coefficients of the volume balance divided by the compliance, in the order of {@link Columns}.
     *
     * @param value the variables in working units
     * @param fast which relaxation is the faster of the two ways heat leaves, as an index
     * @param slow which is the slower
     * @param out receives {@link Columns#LAMINAR} coefficients before the leak terms and the relaxations
     * @return the {@link #compliance}
     */
    double coefficients(double[] value, int fast, int slow, double[] out) {
        double volume = value[VOLUME];
        double oil = volume / value[MODULUS];
        double line = elastic(value);
        double air = volume * value[AIR];
        double heat = heat(value) * oil;
        double creep = line * value[CREEP] * CREEP_DECADES;
        double compliance = compliance(value);
        double unit = 1 / (compliance * value[GAIN]);
        Arrays.fill(out, 0, Columns.THRESHOLD, 0);
        out[Columns.PRESSURE] = (oil - heat + line(value, 0)) * unit;
        out[Columns.STIFFENING] = oil * value[STIFFENING] / STIFFENING_PER_BAR * unit;
        out[Columns.HOSE_CURVE] = line * value[HOSE_CURVE] * unit;
        out[Columns.AIR] = air * unit;
        out[Columns.AIR_WARM] = air * unit * value[SMALL_BUBBLES];
        out[Columns.AIR_WARM + 1] = air * unit * value[LARGE_BUBBLES];
        out[Columns.AIR_DISSOLVED] = air * Math.min(1, value[DISSOLVING]) * unit;
        double expansion = volume * EXPANSION_PER_K / compliance;
        out[Columns.TIME] = -expansion * value[DRIFT];
        out[Columns.OIL_TEMPERATURE] = -expansion * value[OIL_SENSOR];
        out[Columns.AMBIENT_TEMPERATURE] = -expansion * value[AMBIENT];
        out[Columns.STROKES] = -value[STROKE] / compliance;
        out[Columns.STROKES_BAR] = value[STROKE] * value[PUMP_LOSS] / compliance;
        out[Columns.BLED] = value[BLED] / compliance;
        out[Columns.RELAXATION + fast] += heat * value[HEAT_SPLIT] * unit;
        out[Columns.RELAXATION + slow] += heat * (1 - value[HEAT_SPLIT]) * unit;
        for (int k : CREEP_COLUMN) {
            out[Columns.RELAXATION + k] += creep * unit;
        }
        return compliance;
    }

    /** d/dp of the isothermally compressed air per unit of air at atmospheric pressure, 1/bar. */
    static double airSlope(double pressureBar) {
        double total = ATMOSPHERE_BAR + Math.max(pressureBar, -0.9);
        return ATMOSPHERE_BAR / (total * total);
    }

    /** Compliance at rest of heat and creep (isothermal), cm³/bar, at pressure {@code bar}. */
    double isothermalCompliance(double[] value, double bar) {
        double volume = value[VOLUME];
        double oil = volume / value[MODULUS];
        double c = oil + stiffened(oil, value, bar) + line(value, bar) + volume * value[AIR] * airSlope(bar);
        return Math.max(c, LEAST_LEFT * (oil + value[LINE]));
    }

    /** What the oil's grade and temperature tell: modulus (bar) with its log spread, and 1 − K_T/K_S. */
    record OilPrior(double modulusBar, double modulusSpread, double heatShare) {}
}
