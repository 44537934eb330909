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
    static final int COUNT = 18;

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
        "compression of air"
    };

    /** Columns of the creep spectrum: a logarithmic creep is a sum of exponentials a factor of 4 apart. */
    private static final int[] CREEP_COLUMN = {0, 2, 4, 6, 8, 10, 12};

    private static final double CREEP_DECADES = Math.log10(4);

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

    /** A value with its spread: normal where it was stated, log-normal where only its order is known. */
    record Prior(double centre, double spread, boolean logarithmic) {
        double at(double x) {
            return logarithmic ? centre * Math.exp(spread * x) : Math.max(centre + spread * x, 0.02 * Math.abs(centre));
        }

        static Prior of(Quantity q, double toUnit) {
            double rel = q.relativeUncertainty();
            double centre = q.value() * toUnit;
            return rel > 0.3
                    ? new Prior(centre, Math.sqrt(Math.log1p(Math.min(rel, 3) * Math.min(rel, 3))), true)
                    : new Prior(centre, centre * rel, false);
        }

        /** Whether this is the same knowledge as {@code other}, number for number. */
        boolean sameAs(Prior other) {
            return centre == other.centre && spread == other.spread && logarithmic == other.logarithmic;
        }

        static Prior order(double centre, double spread) {
            return new Prior(centre, spread, true);
        }

        static Prior plain(double centre, double spread) {
            return new Prior(centre, spread, false);
        }
    }

    /**
     * @param setup what was stated
     * @param roughCompliance what the strokes suggest for dV/dp in cm³/bar, NaN where there are none
     * @param normBar pressure the compliance is normalised at
     */
    static Knowledge of(TestSetup setup, double roughCompliance, double normBar, OilPrior oil) {
        Prior[] p = new Prior[COUNT];
        boolean volume = setup.trappedVolumeM3().isPresent();
        boolean line = setup.lineComplianceM3PerPa().isPresent();
        boolean stroke = setup.pumpStrokeM3().isPresent();
        Prior modulus = stated(setup.bulkModulusPa(), 0.003, 1e-5, Prior.order(oil.modulusBar(), oil.modulusSpread()));
        p[MODULUS] = modulus;
        Prior statedLine = stated(setup.lineComplianceM3PerPa(), 0.003, 1e11, null);
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
            p[LINE] = Prior.order(0.006, 1.2);
        }
        boolean air =
                setup.airFraction().isPresent() && setup.airFraction().get().value() > 0;
        p[AIR] = air ? airPrior(setup.airFraction().get()) : Prior.order(0.005, 0.8);
        p[HEAT] = Prior.order(oil.heatShare(), 0.18);
        p[HEAT_SPLIT] = Prior.plain(0, 1.2);
        p[STIFFENING] = Prior.order(STIFFENING_PER_BAR * 1.45e4 / modulus.centre(), 0.15);
        p[HOSE_CURVE] = Prior.plain(0.0006, 0.0007);
        p[CREEP] = Prior.order(0.03, 0.9);
        p[DISSOLVING] = Prior.order(0.15, 0.9);
        // Most air is in bubbles that follow at once; some may be in pockets that take seconds to cool.
        p[SMALL_BUBBLES] = Prior.plain(0.35, 0.3);
        p[LARGE_BUBBLES] = Prior.plain(0.15, 0.2);
        p[DRIFT] = Prior.plain(0, 0.008 / 60);
        p[STROKE] = stated(setup.pumpStrokeM3(), 0.001, 1e6, Prior.order(1.0, 1.3));
        p[BLED] = stated(setup.bledVolumeM3(), 0.003, 1e6, Prior.plain(0, 0));
        double accuracy = setup.transducerAccuracy().orElse(0.005);
        double span =
                (setup.transducerMaxPa().orElse(250e5) - setup.transducerMinPa().orElse(0.0)) / 1e5;
        // A gain error is stated as a fraction of the span; at the pressure of the test it weighs more.
        p[GAIN] = Prior.plain(0, Math.min(0.03, accuracy * Math.max(1, 0.5 * (1 + span / Math.max(normBar, 1)))));
        // A sensor in the room or in the tank is not in the trapped oil: how far that follows is open.
        p[AMBIENT] = Prior.plain(0.5, 0.4);
        p[OIL_SENSOR] = Prior.plain(0.8, 0.3);
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

    private static Prior airPrior(Quantity q) {
        double rel = q.relativeUncertainty();
        return rel > 0.3 ? Prior.order(q.value(), Math.min(1.2, Math.sqrt(Math.log1p(rel * rel)))) : Prior.of(q, 1);
    }

    private static Prior stated(Optional<Quantity> quantity, double leastRelative, double toUnit, Prior otherwise) {
        return quantity.isPresent() ? Prior.of(atLeast(quantity.get(), leastRelative), toUnit) : otherwise;
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

    double value(int variable, double x) {
        return prior[variable].at(x);
    }

    Prior prior(int variable) {
        return prior[variable];
    }

    /**
     * Coefficients of the volume balance divided by the compliance, in the order of {@link Columns}.
     *
     * @param x the variables, {@link #COUNT} of them
     * @param fast which relaxation is the faster of the two ways heat leaves, as an index
     * @param slow which is the slower
     * @param out receives {@link Columns#LAMINAR} coefficients before the leak terms and the relaxations
     * @return the compliance a fast change of pressure sees at {@link #normBar}, cm³ per bar as measured
     */
    double coefficients(double[] x, int fast, int slow, double[] out) {
        double volume = value(VOLUME, x[VOLUME]);
        double oil = volume / value(MODULUS, x[MODULUS]);
        double line = value(LINE, x[LINE]);
        double air = volume * value(AIR, x[AIR]);
        double heat = Math.min(0.9, value(HEAT, x[HEAT])) * oil;
        double split = 1 / (1 + Math.exp(-plain(HEAT_SPLIT, x)));
        double stiffening = oil * value(STIFFENING, x[STIFFENING]) / STIFFENING_PER_BAR;
        double hose = line * plain(HOSE_CURVE, x);
        double creep = line * value(CREEP, x[CREEP]) * CREEP_DECADES;
        double gain = 1 + prior[GAIN].spread() * x[GAIN];

        double pressure = oil - heat + line;
        double mu = STIFFENING_PER_BAR;
        double airSlope = air * airSlope(normBar);
        double compliance = pressure + stiffening * (1 / (1 + mu * normBar) - 1) - hose * normBar + airSlope;
        compliance = Math.max(compliance, 0.2 * pressure) / gain;

        double unit = 1 / (compliance * gain);
        Arrays.fill(out, 0, Columns.THRESHOLD, 0);
        out[Columns.PRESSURE] = pressure * unit;
        out[Columns.STIFFENING] = stiffening * unit;
        out[Columns.HOSE_CURVE] = hose * unit;
        out[Columns.AIR] = air * unit;
        out[Columns.AIR_WARM] = air * unit * plain(SMALL_BUBBLES, x);
        out[Columns.AIR_WARM + 1] = air * unit * plain(LARGE_BUBBLES, x);
        out[Columns.AIR_DISSOLVED] = air * Math.min(1, value(DISSOLVING, x[DISSOLVING])) * unit;
        double expansion = volume * EXPANSION_PER_K / compliance;
        out[Columns.TIME] = -expansion * prior[DRIFT].spread() * x[DRIFT];
        out[Columns.OIL_TEMPERATURE] = -expansion * plain(OIL_SENSOR, x);
        out[Columns.AMBIENT_TEMPERATURE] = -expansion * plain(AMBIENT, x);
        out[Columns.STROKES] = -value(STROKE, x[STROKE]) / compliance;
        out[Columns.BLED] = value(BLED, x[BLED]) / compliance;
        out[Columns.RELAXATION + fast] += heat * split * unit;
        out[Columns.RELAXATION + slow] += heat * (1 - split) * unit;
        for (int k : CREEP_COLUMN) {
            out[Columns.RELAXATION + k] += creep * unit;
        }
        return compliance;
    }

    /** A variable that may take either sign. */
    private double plain(int variable, double[] x) {
        return prior[variable].centre() + prior[variable].spread() * x[variable];
    }

    /** d/dp of the isothermally compressed air per unit of air at atmospheric pressure, 1/bar. */
    static double airSlope(double pressureBar) {
        double total = ATMOSPHERE_BAR + Math.max(pressureBar, -0.9);
        return ATMOSPHERE_BAR / (total * total);
    }

    /** Compliance at rest of heat and creep (isothermal), cm³/bar, at pressure {@code bar}. */
    double isothermalCompliance(double[] x, double bar) {
        double volume = value(VOLUME, x[VOLUME]);
        double oil = volume / value(MODULUS, x[MODULUS]);
        double line = value(LINE, x[LINE]);
        double air = volume * value(AIR, x[AIR]);
        double mu = STIFFENING_PER_BAR;
        double hose = line * plain(HOSE_CURVE, x);
        double c = oil
                + line
                + oil * value(STIFFENING, x[STIFFENING]) / mu * (1 / (1 + mu * bar) - 1)
                - hose * bar
                + air * airSlope(bar);
        return Math.max(c, 0.2 * (oil + line));
    }

    /** What the oil's grade and temperature tell: modulus (bar) with its log spread, and 1 − K_T/K_S. */
    record OilPrior(double modulusBar, double modulusSpread, double heatShare) {}
}
