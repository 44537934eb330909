package org.holdtrace.judge;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Predicate;
import org.holdtrace.judge.CaseFindings.Change;
import org.holdtrace.judge.CaseFindings.ElementFinding;
import org.holdtrace.judge.CaseFindings.Standing;
import org.holdtrace.judge.CaseFindings.Status;
import org.holdtrace.judge.CaseFindings.TestFinding;
import org.holdtrace.wording.ShownUnits;

/** From a case and the results of its hold tests to what can be said. */
public final class CaseJudge {
    /** Combinations shown. */
    private static final int COMBINATIONS = 5;

    /** A change of probability smaller than this is none worth telling. */
    private static final double CHANGE = 0.001;

    private final CaseFile file;
    private final List<MeasuredTest> tests;
    private final List<Reach> reaches = new ArrayList<>();
    private final Map<String, Double> limits;
    private final List<Element> path;
    private final PartClaims claims;
    private final ShownUnits units;
    private final Map<List<Observation>, Component> known;

    private CaseJudge(
            CaseFile file, List<MeasuredTest> tests, ShownUnits units, Map<List<Observation>, Component> known) {
        this.file = file;
        this.units = units;
        this.known = known;
        this.tests = List.copyOf(tests);
        this.limits = CarriedLimits.of(file);
        this.path = file.circuit().pathOf(file.complaint());
        this.claims = new PartClaims(file, limits, path);
        tests.forEach(test -> reaches.add(Reach.of(file.circuit(), test.test())));
    }

    /**
     * Judges a case.
     *
     * @param file the case
     * @param tests its hold tests that gave a result, in order, each stated at the pressure and temperature of the case
     */
    public static CaseFindings judge(CaseFile file, List<MeasuredTest> tests) {
        return judge(file, tests, ShownUnits.METRIC);
    }

    /** The same, its sentences in these units. */
    public static CaseFindings judge(CaseFile file, List<MeasuredTest> tests, ShownUnits units) {
        return judge(file, tests, units, new HashMap<>());
    }

    /** The same for one who judges a case over and over: {@code known} keeps what its tests say, and belongs to the case. */
    static CaseFindings judge(
            CaseFile file, List<MeasuredTest> tests, ShownUnits units, Map<List<Observation>, Component> known) {
        return new CaseJudge(file, tests, units, known).findings();
    }

    /** Whether by these tests all elements of a kind would have a status of a kind; without the rest of the findings. */
    static boolean allAre(
            Predicate<Status> enough,
            Predicate<Element> which,
            CaseFile file,
            List<MeasuredTest> tests,
            Map<List<Observation>, Component> known) {
        CaseJudge judge = new CaseJudge(file, tests, ShownUnits.METRIC, known);
        List<Integer> usable = judge.usable();
        Beliefs now = judge.beliefs(Contradictions.among(
                        usable.stream().map(judge.tests::get).toList(),
                        usable.stream().map(judge::observation).toList(),
                        ShownUnits.METRIC)
                .observations());
        return judge.claims.of(now, now, judge.tested(usable)).elements().stream()
                .filter(found -> which.test(found.element()))
                .allMatch(found -> enough.test(found.status()));
    }

    private CaseFindings findings() {
        List<Integer> usable = usable();
        List<MeasuredTest> told = usable.stream().map(tests::get).toList();
        List<Observation> seen = usable.stream().map(this::observation).toList();
        Contradictions contradictions = Contradictions.among(told, seen, units);
        Beliefs before = beliefs(List.of());
        Beliefs now = beliefs(contradictions.observations());
        PartClaims.Claims claims = this.claims.of(before, now, tested(usable));
        List<ElementFinding> elements = claims.elements();
        Set<String> open = new LinkedHashSet<>();
        elements.stream()
                .filter(element -> element.status() == Status.UNDECIDED || element.status() == Status.NOT_TESTED)
                .forEach(element -> open.add(element.element().name()));
        List<String> notTested = elements.stream()
                .filter(element -> element.status() == Status.NOT_TESTED)
                .map(element -> element.element().name())
                .toList();
        Standing standing =
                open.isEmpty() ? Standing.DECIDED : file.stopped().isPresent() ? Standing.STOPPED : Standing.OPEN;
        List<Reach> done = usable.stream().map(reaches::get).toList();
        List<PlannedTest> next =
                standing == Standing.OPEN ? Planner.plan(file, now, limits, done, open, units) : List.of();
        CaseFindings bare = new CaseFindings(
                file,
                standing,
                List.of(),
                elements,
                now.combinations(COMBINATIONS),
                now.probabilityAllSound(
                        file.circuit().elements().stream().map(Element::name).toList()),
                claims.clearedOver(),
                testFindings(before, usable, contradictions.observations()),
                contradictions.found(),
                DriftJudge.judge(file, tests, reaches, units),
                next,
                notTested,
                List.of());
        return CaseWords.with(bare, units, notWeighed(told, contradictions.observations()), strained(now, usable));
    }

    /** Names of tests that cannot all be right together, though no two of them contradict one another. */
    private List<List<String>> strained(Beliefs now, List<Integer> usable) {
        List<List<String>> strained = new ArrayList<>();
        for (Component component : now.strained()) {
            strained.add(usable.stream()
                    .filter(i -> component.elements().containsAll(reaches.get(i).direct()))
                    .map(i -> tests.get(i).test().name())
                    .toList());
        }
        return strained;
    }

    /** Names of tests that overlap with the others in more ways than can be weighed together. */
    private static List<String> notWeighed(List<MeasuredTest> told, List<Observation> observations) {
        Set<Set<Element>> kept = new HashSet<>();
        Observation.weighable(Observation.pooled(observations))
                .forEach(observation -> kept.add(Set.copyOf(observation.elements())));
        List<String> names = new ArrayList<>();
        for (int i = 0; i < told.size(); i++) {
            if (!kept.contains(Set.copyOf(observations.get(i).elements()))) {
                names.add(told.get(i).test().name());
            }
        }
        return names;
    }

    private List<Integer> usable() {
        List<Integer> usable = new ArrayList<>();
        for (int i = 0; i < tests.size(); i++) {
            if (tests.get(i).leak().isPresent() && !reaches.get(i).direct().isEmpty()) {
                usable.add(i);
            }
        }
        return usable;
    }

    private Observation observation(int i) {
        return Observation.of(reaches.get(i).direct(), tests.get(i).leak().orElseThrow());
    }

    private Beliefs beliefs(List<Observation> observations) {
        return Beliefs.of(
                file.circuit().elements(),
                path,
                Observation.weighable(Observation.pooled(observations)),
                limits,
                known);
    }

    private Set<Element> tested(List<Integer> usable) {
        Set<Element> tested = new HashSet<>();
        usable.forEach(i -> tested.addAll(reaches.get(i).direct()));
        return tested;
    }

    private List<TestFinding> testFindings(Beliefs before, List<Integer> usable, List<Observation> observations) {
        List<TestFinding> found = new ArrayList<>();
        Beliefs earlier = before;
        Set<String> cleared = new HashSet<>();
        for (int i = 0; i < tests.size(); i++) {
            List<Change> changes = new ArrayList<>();
            List<String> now = new ArrayList<>();
            int at = usable.indexOf(i);
            if (at >= 0) {
                Beliefs later = beliefs(observations.subList(0, at + 1));
                for (Element element : file.circuit().elements()) {
                    double was = earlier.probabilityOver(element.name());
                    double is = later.probabilityOver(element.name());
                    if (Math.abs(is - was) >= CHANGE || reaches.get(i).direct().contains(element)) {
                        changes.add(new Change(element.name(), was, is));
                    }
                }
                for (ElementFinding each :
                        claims.of(before, later, tested(usable)).elements()) {
                    String name = each.element().name();
                    if (each.status() == Status.CLEARED
                            && reaches.get(i).direct().contains(each.element())
                            && cleared.add(name)) {
                        now.add(name);
                    }
                }
                earlier = later;
            }
            found.add(new TestFinding(
                    tests.get(i), reaches.get(i), changes, CaseWords.of(tests.get(i), reaches.get(i), now, units)));
        }
        return found;
    }
}
