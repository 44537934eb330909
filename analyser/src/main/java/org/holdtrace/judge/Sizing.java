package org.holdtrace.judge;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.Collection;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import org.holdtrace.fluid.Oil;
import org.holdtrace.line.Compliance;
import org.holdtrace.line.ThermalSettling;
import org.holdtrace.quantity.Quantity;
import org.holdtrace.session.TestSetup;
import org.holdtrace.wording.Phrases;
import org.holdtrace.wording.ShownUnits;

/** How high to pump, how much oil that takes and how long to hold. */
final class Sizing {
    /** A relief valve may start to pass somewhat below its setting; common practice, no source. */
    private static final double BELOW_SETTING = 0.9;

    private static final double STEP_PA = 5e5;
    private static final double USUAL_MODULUS_PA = 1.5e9;
    private static final double USUAL_LINE_M3_PER_PA = 0.01e-6 / 1e5;

    /** Air that is still in the oil after bleeding, at atmospheric pressure; common practice, no source. */
    private static final double USUAL_AIR = 0.005;

    /** Seconds a stroke of a hand pump takes, with its pause. */
    private static final double STROKE_S = 1.2;

    /** What convection leaves of the time constant of pure conduction, and its longest; from our own simulated cylinders. */
    private static final double OF_CONDUCTION = 0.35;

    private static final double LONGEST_TIME_CONSTANT_S = 420;

    /** Share of the pressure that settling takes, TH-08. */
    private static final double SETTLING = 0.13;

    /** Share of the settling's rate that stays in doubt once it is fitted. */
    private static final double SETTLING_IN_DOUBT = 0.3;

    /** The limit is resolved when what stays in doubt is this share of it. */
    private static final double RESOLVED = 0.2;

    /** Pressure that noise and drift of a transducer leave in doubt, Pa. */
    private static final double PRESSURE_IN_DOUBT_PA = 0.3e5;

    private static final double SHORTEST_HOLD_S = 30;

    private final CaseFile file;
    private final Map<String, Double> limits;
    private final ShownUnits units;

    Sizing(CaseFile file, Map<String, Double> limits, ShownUnits units) {
        this.units = units;
        this.file = file;
        this.limits = limits;
    }

    /** What the numbers of one test are. */
    record Sized(
            double pressurePa,
            String pressureFrom,
            double pumpedM3,
            OptionalDouble strokes,
            double pumpingS,
            double holdS,
            double limitM3PerS,
            TestSetup plan) {}

    Sized of(CaseTest test, Reach reach, Collection<Element> judged) {
        Map.Entry<String, Double> pressure = pressure(test, reach);
        double pa = pressure.getValue();
        double volume = file.testLine().volumeM3();
        double cooling = 0;
        for (String name : high(test)) {
            Node node = file.circuit().node(name);
            volume += node.volumeM3();
            cooling = Math.max(cooling, node.cooling());
        }
        Optional<Oil> oil = file.oilGrade().flatMap(Oil::ofGrade);
        double temperature = Oil.ZERO_CELSIUS_K + 20;
        double modulus =
                oil.map(known -> known.isothermalModulusPa(temperature).value()).orElse(USUAL_MODULUS_PA);
        double line = file.testLine().complianceM3PerPa().map(Quantity::value).orElse(USUAL_LINE_M3_PER_PA);
        double compliance = Compliance.ofVolumeM3PerPa(volume, modulus) + line;
        double pumped = compliance * pa + USUAL_AIR * volume;
        OptionalDouble strokes = file.testLine().pumpStrokeM3().isPresent()
                ? OptionalDouble.of(
                        Math.ceil(pumped / file.testLine().pumpStrokeM3().get().value()))
                : OptionalDouble.empty();
        double limit = judged.stream()
                .mapToDouble(element -> limits.get(element.name()))
                .min()
                .orElseThrow();
        double diffusivity = oil.orElseGet(() -> Oil.ofViscosityAt40(46e-6)).diffusivityM2PerS(temperature);
        double hold = holdS(compliance * pa, compliance, limit, cooling, diffusivity);
        return new Sized(
                pa,
                pressure.getKey(),
                pumped,
                strokes,
                STROKE_S * strokes.orElse(40),
                hold,
                limit,
                setup(test, reach, volume, limit));
    }

    private static double holdS(
            double pressedM3, double complianceM3PerPa, double limit, double coolingM, double diffusivity) {
        double timeConstant = Math.min(
                LONGEST_TIME_CONSTANT_S,
                Math.max(1, OF_CONDUCTION * ThermalSettling.boreTimeConstantS(Math.max(1e-3, coolingM), diffusivity)));
        double doubt = SETTLING_IN_DOUBT * SETTLING * pressedM3 / timeConstant;
        double settling = timeConstant * Math.max(0, Math.log(doubt / (RESOLVED * limit)));
        double seeing = complianceM3PerPa * PRESSURE_IN_DOUBT_PA / (RESOLVED * limit);
        double whole = Math.max(SHORTEST_HOLD_S, settling + seeing);
        return 30 * Math.ceil(whole / 30);
    }

    private static Set<String> high(CaseTest test) {
        Set<String> high = new HashSet<>(test.joined());
        high.add(test.pressurised());
        return high;
    }

    /** The pressure wanted, or the lowest thing that stands in its way. */
    private Map.Entry<String, Double> pressure(CaseTest test, Reach reach) {
        Map<String, Double> caps = new LinkedHashMap<>();
        double wanted = file.complaint().loadPressurePa().map(Quantity::value).orElse(file.referencePa());
        caps.put(
                file.complaint().loadPressurePa().isPresent() ? "the pressure of the load" : "the pressure of the case",
                wanted);
        for (Element element : reach.direct()) {
            element.settingPa()
                    .ifPresent(setting -> caps.put(
                            "90 % of the setting of " + element.name() + " (" + Phrases.pressure(setting, units) + ")",
                            BELOW_SETTING * setting));
        }
        for (String name : high(test)) {
            file.circuit()
                    .node(name)
                    .ratingPa()
                    .ifPresent(rating -> caps.put(
                            "the rated pressure at " + name + " (" + Phrases.pressure(rating, units) + ")", rating));
        }
        file.testLine()
                .ratingsPa()
                .forEach((what, rating) -> caps.put(
                        "the rated pressure of the " + what + " (" + Phrases.pressure(rating, units) + ")", rating));
        file.testLine()
                .transducerMaxPa()
                .ifPresent(max -> caps.put("the range of the transducer (" + Phrases.pressure(max, units) + ")", max));
        Map.Entry<String, Double> lowest = null;
        for (Map.Entry<String, Double> cap : caps.entrySet()) {
            lowest = lowest == null || cap.getValue() < lowest.getValue() ? cap : lowest;
        }
        double rounded = lowest.getValue() >= 4 * STEP_PA
                ? STEP_PA * Math.floor(lowest.getValue() / STEP_PA + 1e-9)
                : lowest.getValue();
        return Map.entry(lowest.getKey(), rounded);
    }

    private TestSetup setup(CaseTest test, Reach reach, double volumeM3, double limitM3PerS) {
        TestLine line = file.testLine();
        OptionalDouble relief = reach.direct().stream()
                .flatMapToDouble(element -> element.settingPa().stream())
                .min();
        boolean ranged = line.transducerMaxPa().isPresent();
        return new TestSetup(
                Optional.of(file.machine()),
                Optional.of(PlanWords.names(reach.direct())),
                Optional.of(reach.direct().get(0).kind().label()),
                Optional.of(file.circuit().node(test.pressurised()).port()),
                file.oilGrade(),
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                Optional.of(new Quantity(rounded(volumeM3), rounded(0.1 * volumeM3))),
                line.complianceM3PerPa(),
                line.pumpStrokeM3(),
                Optional.empty(),
                ranged ? Optional.of(0.0) : Optional.empty(),
                ranged ? Optional.of(line.transducerMaxPa().getAsDouble()) : Optional.empty(),
                line.transducerAccuracy().isPresent()
                        ? Optional.of(line.transducerAccuracy().getAsDouble())
                        : Optional.empty(),
                Optional.of(Quantity.exactly(file.referencePa())),
                relief.isPresent() ? Optional.of(Quantity.exactly(relief.getAsDouble())) : Optional.empty(),
                Optional.of(Quantity.exactly(rounded(limitM3PerS))));
    }

    /** To four digits, as a person would write it into a setup. */
    private static double rounded(double value) {
        return BigDecimal.valueOf(value).round(new MathContext(4)).doubleValue();
    }
}
