package org.holdtrace.rig;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Collectors;
import org.holdtrace.fluid.BulkModulus;
import org.holdtrace.fluid.EntrainedAir;
import org.holdtrace.fluid.Oil;
import org.holdtrace.leak.LeakLaw;
import org.holdtrace.quantity.Dimension;
import org.holdtrace.quantity.NearMatch;
import org.holdtrace.session.JsonFields;

/** From the fields of a recipe to a rig. Names, meanings and defaults of all fields stand in {@code docs/simulator.md}. */
final class RigParser {
    /** What is expected of an object whose values do not go together. */
    private static final String POSSIBLE = "a rig that can exist";

    private static final double NEVER = Double.POSITIVE_INFINITY;

    private RigParser() {}

    /** The recipe; what it holds is only of use where no problem was noted. Null where the parts do not go together. */
    static RigFile parse(JsonFields root) {
        long seed = root.whole("seed", 1);
        String note = root.text("note", "");
        OilFill fill = part(root.object("oil"), oil -> fill(oil, root));
        Walls walls = part(root.object("walls"), RigParser::walls);
        Heat heat = part(root.object("heat"), RigParser::heat);
        HandPump pump = part(root.object("pump"), RigParser::pump);
        Hand hand = part(root.object("hand"), RigParser::hand);
        LeakLaw component = part(root.object("leak"), RigParser::leak);
        LeakLaw line = part(root.object("lineLeak"), RigParser::leak);
        Sensor sensor = part(root.object("transducer"), RigParser::sensor);
        List<JsonFields> plans = root.list("tests");
        if (plans.isEmpty()) {
            root.problem("no hold test", "a list \"tests\" of at least one object");
        }
        List<TestPlan> tests = new ArrayList<>();
        for (JsonFields plan : plans) {
            TestPlan test = part(plan, node -> plan(node, fill, walls));
            if (test != null) {
                tests.add(test);
            }
        }
        root.finish();
        boolean complete = fill != null
                && walls != null
                && heat != null
                && pump != null
                && hand != null
                && component != null
                && line != null
                && sensor != null
                && !tests.isEmpty()
                && tests.size() == plans.size();
        if (!complete) {
            return null;
        }
        Rig rig = root.checked(
                () -> new Rig(fill, walls, heat, pump, hand, new Leaks(component, line), sensor, tests), POSSIBLE);
        return rig == null ? null : new RigFile(rig, seed, note);
    }

    private static <T> T part(JsonFields node, JsonFields.Taker<T> taker) {
        return node.take(taker, POSSIBLE);
    }

    private static OilFill fill(JsonFields oil, JsonFields root) {
        String grade = oil.text("grade", "ISO VG 46");
        Oil known = Oil.ofGrade(grade).orElse(null);
        if (known == null) {
            oil.problem("grade", "\"" + grade + "\"", "a viscosity grade such as \"ISO VG 46\"");
            known = Oil.ofViscosityAt40(46e-6);
        }
        double temperatureK = oil.quantity("temperature", Dimension.TEMPERATURE, Oil.ZERO_CELSIUS_K + 20);
        double modulusPa = oil.quantity(
                "bulkModulus",
                Dimension.PRESSURE,
                known.isothermalModulusPa(temperatureK).value());
        double slope = oil.quantity("secantSlope", Dimension.FRACTION, BulkModulus.SECANT_SLOPE);
        double fraction = oil.quantity("air", Dimension.FRACTION, 0);
        double index = oil.quantity("airIndex", Dimension.FRACTION, 1);
        double dissolvingS = oil.quantity("airDissolving", Dimension.TIME, NEVER);
        double volumeM3 = root.quantity("trappedVolume", Dimension.VOLUME);
        return new OilFill(
                volumeM3,
                modulusPa,
                slope,
                known.expansionPerK(temperatureK),
                temperatureK,
                known.compressionHeatingKPerPa(temperatureK),
                new EntrainedAir(fraction, index),
                dissolvingS);
    }

    private static Walls walls(JsonFields walls) {
        double rigid = walls.quantity("rigidCompliance", Dimension.COMPLIANCE, 0);
        double hose = walls.quantity("hoseCompliance", Dimension.COMPLIANCE, 0);
        double stiffShare = walls.quantity("hoseStiffShare", Dimension.FRACTION, 1);
        double stiffening = walls.quantity("hoseStiffening", Dimension.PRESSURE, 100e5);
        double creep = walls.quantity("creepPerDecade", Dimension.FRACTION, 0);
        double from = walls.quantity("creepFrom", Dimension.TIME, 0.3);
        double to = walls.quantity("creepTo", Dimension.TIME, 3000);
        String expansion = walls.text("expansion", "steel");
        boolean steel = expansion.equals("steel");
        if (!steel && !expansion.equals("none")) {
            walls.problem("expansion", "\"" + expansion + "\"", "\"steel\" or \"none\"");
        }
        return new Walls(rigid, hose, stiffShare, stiffening, creep, from, to, steel ? 35e-6 : 0);
    }

    private static Heat heat(JsonFields heat) {
        List<Heat.Mode> modes = new ArrayList<>();
        for (JsonFields mode : heat.list("modes")) {
            Heat.Mode made = part(
                    mode,
                    node -> new Heat.Mode(
                            node.quantity("time", Dimension.TIME), node.quantity("share", Dimension.FRACTION)));
            if (made != null) {
                modes.add(made);
            }
        }
        double driftK = heat.kelvins("driftPerHour");
        double swingK = heat.kelvins("swing");
        double periodS = heat.quantity("swingPeriod", Dimension.TIME, 600);
        return new Heat(modes, driftK / 3600, swingK, periodS);
    }

    private static HandPump pump(JsonFields pump) {
        double stroke = pump.quantity("stroke", Dimension.VOLUME);
        double scatter = pump.quantity("scatter", Dimension.FRACTION, 0);
        double loss = pump.quantity("lossAt100Bar", Dimension.FRACTION, 0);
        double relief = pump.quantity("relief", Dimension.PRESSURE, NEVER);
        double dead = pump.quantity("deadVolume", Dimension.VOLUME, 0);
        ShutOff shutOff = new ShutOff(
                pump.quantity("shutWithin", Dimension.TIME, 0),
                pump.quantity("backLeak", Dimension.FLOW, 0),
                pump.quantity("stemVolume", Dimension.VOLUME, 0));
        return new HandPump(stroke, scatter, loss / 100e5, relief, dead, shutOff);
    }

    private static Hand hand(JsonFields hand) {
        JsonFields hesitations = hand.object("hesitations");
        JsonFields breaks = hand.object("breaks");
        double halfStrokes = hand.quantity("halfStrokes", Dimension.FRACTION, 0);
        Hand.Irregularities odd = new Hand.Irregularities(
                halfStrokes,
                hesitations.quantity("share", Dimension.FRACTION, 0),
                hesitations.quantity("time", Dimension.TIME, 0.3),
                breaks.quantity("share", Dimension.FRACTION, 0),
                breaks.quantity("time", Dimension.TIME, 2));
        hesitations.finish();
        breaks.finish();
        double stroke = hand.quantity("stroke", Dimension.TIME, 0.5);
        double pause = hand.quantity("pause", Dimension.TIME, 0.5);
        double spread = hand.quantity("spread", Dimension.FRACTION, 0);
        double slowing = hand.quantity("slowing", Dimension.FRACTION, 0);
        List<StrokeShape> shapes = shapes(hand);
        double reaction = hand.quantity("reaction", Dimension.TIME, 0.1);
        boolean finishes = hand.flag("finishesLastStroke");
        return new Hand(stroke, pause, spread, slowing, shapes, odd, reaction, finishes);
    }

    /** "half sine, front loaded": names as in the enum, in small letters with spaces. */
    private static List<StrokeShape> shapes(JsonFields hand) {
        List<StrokeShape> shapes = new ArrayList<>();
        for (String word : hand.text("shapes", "half sine").split(",", -1)) {
            Optional<StrokeShape> shape = Arrays.stream(StrokeShape.values())
                    .filter(known -> name(known).equals(word.strip()))
                    .findFirst();
            if (shape.isPresent()) {
                shapes.add(shape.get());
            } else {
                String known =
                        Arrays.stream(StrokeShape.values()).map(RigParser::name).collect(Collectors.joining(", "));
                hand.problem("shapes", "\"" + word.strip() + "\"", known);
            }
        }
        return shapes.isEmpty() ? List.of(StrokeShape.HALF_SINE) : shapes;
    }

    private static String name(StrokeShape shape) {
        return shape.name().toLowerCase(Locale.ROOT).replace('_', ' ');
    }

    private static LeakLaw leak(JsonFields leak) {
        String law = leak.text("law", "none");
        if (law.equals("none")) {
            return LeakLaw.none();
        }
        double flow = leak.quantity("flow", Dimension.FLOW);
        double at = leak.quantity("at", Dimension.PRESSURE);
        return switch (law) {
            case "laminar" -> {
                double perPa = thickeningPerPa(leak);
                yield perPa == 0
                        ? new LeakLaw.Laminar(flow / at)
                        : new LeakLaw.Thickening(conductance(flow, at, perPa), 0, perPa);
            }
            case "orifice" -> new LeakLaw.Orifice(flow / Math.sqrt(at));
            case "mixed" -> {
                double share = leak.quantity("laminarShare", Dimension.FRACTION);
                double b = (1 - share) * flow / Math.sqrt(at);
                double perPa = thickeningPerPa(leak);
                yield perPa == 0
                        ? new LeakLaw.Mixed(share * flow / at, b)
                        : new LeakLaw.Thickening(conductance(share * flow, at, perPa), b, perPa);
            }
            case "threshold" -> {
                double opens = leak.quantity("opensAt", Dimension.PRESSURE);
                if (!(opens < at)) {
                    leak.problem("opensAt", "it opens at or above the pressure its flow is given at", "a lower one");
                    yield LeakLaw.none();
                }
                yield new LeakLaw.Threshold(flow / (at - opens), opens);
            }
            default -> {
                List<String> known = List.of("none", "laminar", "orifice", "mixed", "threshold");
                String near = NearMatch.of(law, known)
                        .map(match -> "\"" + match + "\"?")
                        .orElse(String.join(", ", known));
                leak.problem("law", "\"" + law + "\"", near);
                yield LeakLaw.none();
            }
        };
    }

    /** α of oil that is thicker by the share given at 100 bar, 1/Pa. */
    private static double thickeningPerPa(JsonFields leak) {
        return StrictMath.log1p(leak.quantity("thickeningAt100Bar", Dimension.FRACTION, 0)) / 100e5;
    }

    /** Conductance at low pressure of a clearance that passes {@code flow} at the pressure {@code at}. */
    private static double conductance(double flow, double at, double perPa) {
        return flow * perPa / -StrictMath.expm1(-perPa * at);
    }

    private static Sensor sensor(JsonFields node) {
        double maxPa = node.quantity("upTo", Dimension.PRESSURE);
        String converter = node.text("converter", "16 bit");
        Sensor.Scale scale =
                converter.equals("12 bit") ? Sensor.Scale.twelveBit(maxPa) : Sensor.Scale.sixteenBit(maxPa);
        if (!converter.equals("12 bit") && !converter.equals("16 bit")) {
            node.problem("converter", "\"" + converter + "\"", "\"16 bit\" or \"12 bit\"");
        }
        double rate = node.quantity("samplesPerSecond", Dimension.FRACTION, 250);
        double jitter = node.quantity("jitter", Dimension.TIME, 0);
        Sensor.Errors errors = new Sensor.Errors(
                node.quantity("gainError", Dimension.FRACTION, 0),
                node.quantity("zeroError", Dimension.PRESSURE, 0),
                node.quantity("bow", Dimension.PRESSURE, 0),
                node.quantity("zeroDriftPerMinute", Dimension.PRESSURE, 0) / 60,
                node.quantity("lag", Dimension.TIME, 0));
        Sensor.Noise noise = new Sensor.Noise(
                node.quantity("whiteNoise", Dimension.PRESSURE, 0),
                node.quantity("colouredNoise", Dimension.PRESSURE, 0),
                node.quantity("colourTime", Dimension.TIME, 0.5),
                node.quantity("zeroWalkPerRootSecond", Dimension.PRESSURE, 0));
        Sensor.Faults faults = new Sensor.Faults(
                node.quantity("spikesPerMinute", Dimension.FRACTION, 0) / 60,
                node.quantity("spikeSize", Dimension.PRESSURE, 5e5),
                node.quantity("gapsPerMinute", Dimension.FRACTION, 0) / 60,
                (int) Math.max(0, Math.min(100_000, node.whole("gapSamples", 20))));
        return new Sensor(
                rate,
                jitter,
                scale,
                errors,
                noise,
                faults,
                node.flag("oilTemperature"),
                node.flag("ambientTemperature"));
    }

    private static TestPlan plan(JsonFields node, OilFill fill, Walls walls) {
        double rest = node.quantity("rest", Dimension.TIME, 5);
        double drained = node.quantity("drained", Dimension.VOLUME, 0);
        double target = node.quantity("target", Dimension.PRESSURE);
        int stall = (int) Math.min(10_000, node.whole("stallStrokes", 8));
        int most = (int) Math.min(10_000, node.whole("maxStrokes", 400));
        double hold = node.quantity("hold", Dimension.TIME);
        double bleed = node.quantity("bleedOff", Dimension.TIME, 0);
        double emptiesIn = node.quantity("emptiesIn", Dimension.TIME, 1);
        boolean pumpedUp = node.flag("startsPumpedUp");
        if (fill == null || walls == null) {
            return null; // its own problem has been noted
        }
        if (!(emptiesIn > 0)) {
            node.problem("emptiesIn", "a line that empties in no time", "a time above 0 such as \"1 s\"");
            return null;
        }
        double compliance = new LineCompliance(fill, walls, 0).isothermal(0.6 * target);
        double coefficient = 2 * compliance * Math.sqrt(target) / emptiesIn;
        return new TestPlan(rest, drained, target, stall, most, hold, bleed, coefficient, pumpedUp);
    }
}
