package org.holdtrace.judge;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.stream.IntStream;
import org.holdtrace.wording.ShownUnits;

/**
 * Finds the hold tests worth doing: every way to press a node with its neighbours open or shut and its cartridges in or
 * out, valued by what it is expected to tell ({@link LeakDraws}) for the time it takes.
 */
final class Planner {
    /** Tests shown: more than that nobody plans ahead. */
    private static final int MOST = 6;

    /** Of so many nodes next to the one pressed every choice of shut ones is tried. */
    private static final int FEW_NEIGHBOURS = 4;

    /** Information below which a test is not shown beside others, bits: it would be written as 0.00. */
    private static final double WORTH_SHOWING = 0.005;

    /** Screwing the test line on, filling it and letting the pressure off again, s. Common practice, no source. */
    private static final double SETTING_UP_S = 300;

    /** Taking a cartridge out and plugging its cavity, or changing it for a sound one, s. Common practice, no source. */
    private static final double BLANKING_S = 600;

    /** Bringing a rod to its stop and securing it and its load, s. Common practice, no source. */
    private static final double SECURING_S = 600;

    /** Between two tests: reading off, judging, deciding on the next, s. Common practice, no source. */
    private static final double BETWEEN_S = 1200;

    /** What a test is worth that is never among the fewest still to be made, beside one that always is and tells as much. */
    private static final double NEVER_NEEDED = 0.1;

    /** Share of the time to reach a port that is saved where its lines stay on. */
    private static final double LINES_ON = 0.5;

    private final CaseFile file;
    private final Beliefs beliefs;
    private final Sizing sizing;
    private final LeakDraws draws;
    private final Set<Set<String>> done = new HashSet<>();
    private final List<List<Element>> earlier = new ArrayList<>();
    private final Map<String, Double> limits;

    private Planner(CaseFile file, Beliefs beliefs, Map<String, Double> limits, List<Reach> reaches, ShownUnits units) {
        this.file = file;
        this.beliefs = beliefs;
        this.sizing = new Sizing(file, limits, units);
        this.limits = limits;
        this.draws = beliefs.draws(limits);
        reaches.forEach(reach -> done.add(names(reach)));
        reaches.forEach(reach -> earlier.add(reach.direct()));
    }

    /** The tests worth doing, best first. {@code reaches}: what was tested already, which is not proposed again. */
    static List<PlannedTest> plan(
            CaseFile file,
            Beliefs beliefs,
            Map<String, Double> limits,
            List<Reach> reaches,
            Set<String> open,
            ShownUnits units) {
        return new Planner(file, beliefs, limits, reaches, units).plan(open);
    }

    private List<PlannedTest> plan(Set<String> open) {
        Map<Set<String>, PlannedTest> best = new LinkedHashMap<>();
        Map<Set<String>, LeakDraws.Told> expected = new HashMap<>();
        for (CaseTest test : arrangements(file.circuit())) {
            Reach reach = Reach.of(file.circuit(), test);
            Set<String> names = names(reach);
            Sight sight = Sight.of(reach.direct(), earlier, limits);
            boolean tells = names.stream().anyMatch(open::contains)
                    || names(sight.byDifference()).stream().anyMatch(open::contains);
            if (names.isEmpty() || done.contains(names) || !tells || isKnown(names, open) || !isWeighable(reach)) {
                continue;
            }
            LeakDraws.Told told = expected.computeIfAbsent(names, key -> draws.expected(reach.direct(), open));
            PlannedTest planned = planned(test, reach, sight, told);
            best.merge(names, planned, (a, b) -> a.wholeS() <= b.wholeS() ? a : b);
        }
        boolean some = best.values().stream().anyMatch(planned -> planned.bits() >= WORTH_SHOWING);
        return lookedAhead(List.copyOf(best.values()), open).stream()
                .filter(planned -> !some || planned.bits() >= WORTH_SHOWING)
                .sorted(Comparator.comparingDouble(PlannedTest::worthPerSecond).reversed())
                .limit(MOST)
                .toList();
    }

    /** {@code tests}, worth so much less the more seldom they are among the fewest that still have to be made. */
    private List<PlannedTest> lookedAhead(List<PlannedTest> tests, Set<String> open) {
        List<String> over = file.circuit().elements().stream()
                .map(Element::name)
                .filter(name -> !open.contains(name) && beliefs.probabilityOver(name) > 0.5)
                .toList();
        double[] shares = new TestsAhead(
                        tests.stream()
                                .map(planned -> new TestsAhead.Way(
                                        planned.reach().direct(),
                                        planned.wholeS() + BETWEEN_S,
                                        planned.test().blanked(),
                                        BLANKING_S))
                                .toList(),
                        earlier,
                        open,
                        over,
                        limits,
                        draws)
                .shares();
        return IntStream.range(0, tests.size())
                .mapToObj(i -> tests.get(i).worth(NEVER_NEEDED + (1 - NEVER_NEEDED) * shares[i]))
                .toList();
    }

    /** Whether an earlier test had the same undecided elements in it and no more beside them: it would tell this again. */
    private boolean isKnown(Set<String> names, Set<String> open) {
        for (Set<String> earlier : done) {
            Set<String> undecided = new HashSet<>(earlier);
            undecided.retainAll(open);
            Set<String> own = new HashSet<>(names);
            own.retainAll(open);
            if (!own.isEmpty() && undecided.equals(own) && names.containsAll(earlier)) {
                return true;
            }
        }
        return false;
    }

    /** Whether its result could be weighed together with those there are. */
    private boolean isWeighable(Reach reach) {
        List<List<Element>> all = new ArrayList<>(earlier);
        all.add(reach.direct());
        return Observation.weighableOf(all).size() == all.size();
    }

    private PlannedTest planned(CaseTest test, Reach reach, Sight sight, LeakDraws.Told told) {
        Set<Element> judged = sight.judged().isEmpty() ? new LinkedHashSet<>(reach.direct()) : sight.judged();
        Set<Element> direct = new LinkedHashSet<>(reach.direct());
        direct.retainAll(judged);
        double pass = beliefs.probabilityAllSound(names(direct.isEmpty() ? reach.direct() : direct));
        Sizing.Sized sized = sizing.of(test, reach, judged);
        double access = file.circuit().node(test.pressurised()).accessS();
        double whole = (test.joined().isEmpty() ? 1 : LINES_ON) * access
                + SETTING_UP_S
                + BLANKING_S * test.blanked().size()
                + (pressesCylinder(test) ? SECURING_S : 0)
                + sized.pumpingS()
                + sized.holdS();
        double extra = whole;
        for (String cartridge : test.blanked()) {
            extra -= BLANKING_S * beliefs.probabilityOver(cartridge); // one that is worn comes out sooner or later
        }
        return new PlannedTest(
                test,
                reach,
                told.bits(),
                told.worth() / (extra + BETWEEN_S),
                pass,
                sized.pressurePa(),
                sized.pressureFrom(),
                sized.pumpedM3(),
                sized.strokes(),
                sized.holdS(),
                whole,
                sized.limitM3PerS(),
                PlanWords.ifHolds(reach, sight),
                PlanWords.ifLeaks(reach, beliefs),
                PlanWords.cautions(file.circuit(), test, reach),
                sized.plan());
    }

    private boolean pressesCylinder(CaseTest test) {
        return file.circuit().cylinders().stream()
                .anyMatch(cylinder -> cylinder.has(test.pressurised())
                        || test.joined().stream().anyMatch(cylinder::has));
    }

    /** Entropy of an answer that is yes with probability {@code p}, bits. */
    static double entropyBits(double p) {
        return bits(p) + bits(1 - p);
    }

    private static double bits(double p) {
        return p <= 0 || p >= 1 ? 0 : -p * Math.log(p) / Math.log(2);
    }

    private static Set<String> names(Reach reach) {
        return names(reach.direct());
    }

    private static Set<String> names(Collection<Element> elements) {
        Set<String> names = new HashSet<>();
        elements.forEach(element -> names.add(element.name()));
        return names;
    }

    /** Every way to press a node that does no harm: never with the far side of a piston shut, which would multiply pressure. */
    static List<CaseTest> arrangements(Circuit circuit) {
        List<CaseTest> all = new ArrayList<>();
        for (Node node : circuit.nodes()) {
            List<String> alone = others(circuit.opensInto(node.name(), List.of()), node);
            arrange(circuit, node.name(), alone, all);
            List<String> joined = others(circuit.joinedTo(node.name()), node);
            if (!joined.equals(alone)) {
                arrange(circuit, node.name(), joined, all);
            }
        }
        return all;
    }

    private static List<String> others(Set<String> nodes, Node node) {
        return nodes.stream()
                .filter(other -> !other.equals(node.name()))
                .sorted()
                .toList();
    }

    private static void arrange(Circuit circuit, String node, List<String> joined, List<CaseTest> all) {
        Set<String> high = new HashSet<>(joined);
        high.add(node);
        if (circuit.cylinders().stream()
                .anyMatch(cylinder -> high.contains(cylinder.boreNode()) && high.contains(cylinder.rodNode()))) {
            return;
        }
        List<String> neighbours = new ArrayList<>();
        List<String> mustOpen = new ArrayList<>();
        for (Element element : circuit.elements()) {
            String other =
                    high.contains(element.from()) ? element.to() : high.contains(element.to()) ? element.from() : null;
            if (other == null || element.isLine() || high.contains(other) || Node.isLow(other)) {
                continue;
            }
            if (element.kind() == ElementKind.PISTON_SEAL) {
                mustOpen.add(other);
            } else if (!neighbours.contains(other)) {
                neighbours.add(other);
            }
        }
        for (BitSet shut : choices(neighbours.size())) {
            List<String> open = new ArrayList<>(mustOpen);
            List<String> blocked = new ArrayList<>();
            for (int i = 0; i < neighbours.size(); i++) {
                (shut.get(i) ? blocked : open).add(neighbours.get(i));
            }
            CaseTest plain = test(node, joined, open, blocked, List.of());
            all.add(plain);
            List<String> cartridges = Reach.of(circuit, plain).direct().stream()
                    .filter(Element::canBeBlanked)
                    .map(Element::name)
                    .toList();
            for (String cartridge : cartridges) {
                all.add(test(node, joined, open, blocked, List.of(cartridge)));
            }
            if (cartridges.size() > 1) {
                all.add(test(node, joined, open, blocked, cartridges));
            }
        }
    }

    /** Which neighbours are shut: every choice among a few; of many all, none, each alone, and all but each. */
    private static List<BitSet> choices(int neighbours) {
        List<BitSet> all = new ArrayList<>();
        if (neighbours <= FEW_NEIGHBOURS) {
            for (long shut = 0; shut < 1 << neighbours; shut++) {
                all.add(BitSet.valueOf(new long[] {shut}));
            }
            return all;
        }
        all.add(new BitSet());
        for (int i = 0; i < neighbours; i++) {
            BitSet one = new BitSet();
            one.set(i);
            all.add(one);
            BitSet others = new BitSet();
            others.set(0, neighbours);
            others.clear(i);
            all.add(others);
        }
        BitSet every = new BitSet();
        every.set(0, neighbours);
        all.add(every);
        return all;
    }

    private static CaseTest test(
            String node, List<String> joined, List<String> open, List<String> blocked, List<String> blanked) {
        String name = "press " + node + (joined.isEmpty() ? "" : " with " + String.join(", ", joined))
                + (blocked.isEmpty() ? "" : ", " + String.join(", ", blocked) + " shut")
                + (blanked.isEmpty() ? "" : ", without " + String.join(", ", blanked));
        return new CaseTest(name, "", 1, node, joined, open, blocked, blanked, OptionalDouble.empty());
    }
}
