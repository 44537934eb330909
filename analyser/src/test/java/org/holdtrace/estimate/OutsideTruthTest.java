package org.holdtrace.estimate;

import static org.holdtrace.estimate.Results.assertCompliance;
import static org.holdtrace.estimate.Results.assertLeak;
import static org.holdtrace.estimate.Results.cautions;
import static org.holdtrace.estimate.Results.leak;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Locale;
import org.holdtrace.estimate.HoldTestResult.Outcome;
import org.holdtrace.estimate.HoldTestResult.Route;
import org.holdtrace.leak.Law;
import org.holdtrace.quantity.Unit;
import org.junit.jupiter.api.Test;

/**
 * Pressures written down from closed forms, and the leaks that textbooks and standards say they mean. IDs are those of
 * the project's list of reference values; C-… are definitions and need no source.
 *
 * <p>The closed forms have one modulus at all pressures. Oil stiffens, so the setups state what oil must have at low
 * pressure to have that modulus near 50 bar: about 11 bar less for each bar (BM-04, source not seen: memory).
 */
class OutsideTruthTest {
    private static final double ATMOSPHERE_BAR = 1.01325;

    /** Compliances of a litre of oil, cm³/bar: isothermal, and as a stroke sees it (BM-02's moduli). */
    private static final double SLOW = 1000 / 14_308.4;

    private static final double FAST = 1000 / 16_500.0;

    /** A rigid cylinder with a litre of oil, pumped to about 100 bar. */
    private static ClosedForm litre(double holdS, double rateHz) {
        ClosedForm form = new ClosedForm();
        form.strokes = 40;
        form.strokeCm3 = 2.5 * SLOW;
        form.everyS = 0.6;
        form.holdS = holdS;
        form.rateHz = rateHz;
        return form;
    }

    private static Known knownLitre() {
        return new Known()
                .kind("cylinder")
                .volume("1 l ± 2 %")
                .modulus("1.40 GPa ± 5 %")
                .air("0 %")
                .line("0.001 cm3/bar ± 20 %")
                .transducer(250, 0.1);
    }

    private static String cm3(double value, String uncertainty) {
        return String.format(Locale.ROOT, "%.8g cm3 ± %s", value, uncertainty);
    }

    /** Oil without air in a rigid line, looked at with a good transducer. */
    private static Known oil(String volume, String modulus) {
        return new Known()
                .volume(volume)
                .modulus(modulus)
                .line("1e-6 cm3/bar")
                .air("0 %")
                .transducer(250, 0.1);
    }

    @Test
    void theBalanceOfTheseTestsGivesTheClosedForms() {
        double c = 100 / 13_000.0;
        // C-04: p(600 s) = 27.2532 bar; C-05: p(600 s) = 12.2500 bar, empty at 923.077 s.
        double g = 0.1 / 60 / 100;
        double k = 0.1 / 60 / 10;
        for (ClosedForm.Line line : List.of(ClosedForm.laminar(c, g), new Balance(p -> c, 0, 1, p -> g * p))) {
            line.stroke(100 * c);
            line.pass(600);
            assertEquals(27.2532, line.bar(), 5e-5);
        }
        for (ClosedForm.Line line :
                List.of(ClosedForm.orifice(c, k), new Balance(p -> c, 0, 1, p -> k * Math.sqrt(p)))) {
            line.stroke(100 * c);
            line.pass(600);
            assertEquals(12.2500, line.bar(), 5e-5);
            line.pass(323);
            assertTrue(line.bar() < 1e-6);
        }
        // TH-08: a step of 100 bar falls by 1 − K_T/K_S = 13.28 % as the oil cools, BM-02's moduli.
        for (ClosedForm.Line line :
                List.of(ClosedForm.warming(SLOW, FAST, 60, 0), new Balance(p -> FAST, SLOW - FAST, 60, p -> 0))) {
            line.stroke(100 * FAST);
            line.pass(3000);
            assertEquals(100 - 13.28, line.bar(), 5e-3);
        }
        // EF-03: 1 l with 1 % air takes 16.4997 ml to 100 bar.
        ClosedForm.Line aerated = ClosedForm.aerated(1000, 15_000, 0.01, ATMOSPHERE_BAR);
        aerated.stroke(16.4997);
        assertEquals(100, aerated.bar(), 1e-3);
    }

    @Test
    void halfALitreThatLosesOneBarAMinuteLeaksWhatTheDefinitionSays() {
        // C-01: 0.500 l, 1.40 GPa, −1.00 bar/min: 0.035714 ml/min.
        double c = 500 / 14_000.0;
        ClosedForm form = new ClosedForm();
        form.holdS = 300;
        form.rateHz = 20;
        HoldTestResult result = Results.of(
                form.begunPumpedUp(ClosedForm.laminar(c, c / 60 / 50), 52.5 * c),
                oil("0.5 l ± 1 %", "1.346 GPa ± 3 %").reference("50 bar"));
        assertLeak(0.035714, 0.08, result);
        assertCompliance(c, 0.03, result);
        assertEquals(
                List.of("volume and oil"), result.compliance().orElseThrow().from());
    }

    @Test
    void aSmallLineThatLosesLittleLeaksWhatTheDefinitionSays() {
        // C-02: 150 ml, 1.30 GPa, −0.400 bar/min: 0.0046154 ml/min.
        double c = 150 / 13_000.0;
        ClosedForm form = new ClosedForm();
        form.holdS = 600;
        form.rateHz = 20;
        HoldTestResult result = Results.of(
                form.begunPumpedUp(ClosedForm.laminar(c, 0.4 * c / 60 / 50), 52 * c),
                oil("150 ml ± 1 %", "1.246 GPa ± 3 %").reference("50 bar"));
        assertLeak(0.0046154, 0.12, result);
    }

    @Test
    void anExponentialDecayIsALaminarLeak() {
        // C-04: 100 ml, 1.30 GPa, 0.1 ml/min per 100 bar: 100 bar fall to 27.25 bar in 600 s.
        double c = 100 / 13_000.0;
        double g = 0.1 / 60 / 100;
        ClosedForm form = new ClosedForm();
        form.holdS = 600;
        form.rateHz = 20;
        Known known = oil("100 ml ± 1 %", "1.246 GPa ± 3 %").reference("50 bar");
        assertLeak(0.05, 0.06, Results.of(form.begunPumpedUp(ClosedForm.laminar(c, g), 100 * c), known));
        // The same with the heat of ten quick strokes (BM-02: K_S/K_T = 1.153) leaving a bore of 4 mm (TH-09: 34.8 s).
        form.strokes = 10;
        form.strokeCm3 = 10 * c;
        form.everyS = 0.6;
        HoldTestResult warm = Results.of(form.make(ClosedForm.warming(c, c / 1.153, 34.8, g)), known);
        assertLeak(0.05, 0.06, warm);
    }

    @Test
    void aLaminarLeakOfOilThatStiffensIsKnownForOne() {
        // C-04 with the modulus of BM-04 (memory), whose tangent grows by 11 bar a bar, 1.30 GPa at low pressure.
        double g = 0.1 / 60 / 100;
        ClosedForm form = new ClosedForm();
        form.holdS = 600;
        form.rateHz = 20;
        HoldTestResult result = Results.of(
                form.begunPumpedUp(ClosedForm.stiffening(100, 13_000, 11, g), 0.73),
                oil("100 ml ± 1 %", "1.30 GPa ± 3 %").reference("50 bar"));
        assertLeak(0.05, 0.04, result);
        assertCompliance(100 / (13_000 + 11 * 50.0), 0.02, result);
        assertEquals(Law.LAMINAR, leak(result).law());
        assertTrue(leak(result).weights().get(Law.LAMINAR) > 0.5, leak(result).toString());
    }

    @Test
    void aRootThatFallsInAStraightLineIsAnOrifice() {
        // C-05: the same line, 0.1 ml/min at 100 bar through a hole: empty after 923 s.
        double c = 100 / 13_000.0;
        double k = 0.1 / 60 / 10;
        ClosedForm form = new ClosedForm();
        form.holdS = 600;
        form.rateHz = 20;
        Known known = oil("100 ml ± 1 %", "1.246 GPa ± 3 %").reference("50 bar");
        double truth = 0.1 * Math.sqrt(0.5);
        HoldTestResult cold = Results.of(form.begunPumpedUp(ClosedForm.orifice(c, k), 100 * c), known);
        assertLeak(truth, 0.06, cold);
        assertEquals(Law.ORIFICE, leak(cold).law());
        assertTrue(leak(cold).weights().get(Law.ORIFICE) > 0.8, leak(cold).toString());
        form.strokes = 10;
        form.strokeCm3 = 10 * c;
        form.everyS = 0.6;
        HoldTestResult warm = Results.of(
                form.make(new Balance(p -> c / 1.153, c - c / 1.153, 34.8, p -> k * Math.sqrt(p))),
                known.stroke(cm3(10 * c, "1 %")));
        assertLeak(truth, 0.03, warm);
        assertEquals(Law.ORIFICE, leak(warm).law());
    }

    @Test
    void onAPlateauTheLeakIsWhatIsPumped() {
        // C-08: 6 strokes a minute of 0.80 ml: 4.80 ml/min.
        ClosedForm form = new ClosedForm();
        form.strokes = 24;
        form.everyS = 10;
        form.strokeCm3 = 0.8;
        form.plateauFrom = 8;
        form.holdS = 30;
        form.rateHz = 50;
        double c = 0.04;
        ClosedForm.Made made = form.make(ClosedForm.warming(c, 0.92 * c, 5, 4.8 / 60 / 20));
        HoldTestResult result = Results.of(
                made, new Known().stroke("0.80 ± 0.008 ml").transducer(60, 0.1).reference("20 bar"));
        assertLeak(4.80, 0.02, result);
        assertEquals(List.of(Route.STROKE_TAILS, Route.PLATEAU_FLOW), Results.routes(result));
        HoldTestResult.RouteRate plateau = Results.route(result, Route.PLATEAU_FLOW);
        assertEquals(4.80, Unit.CM3_PER_MIN.fromSi(plateau.m3PerS()), 0.1);
        // Nothing but the stroke is needed, so little more than its 1 % is left: no leak beyond what was pumped.
        assertTrue(plateau.upper95() < 1.06 * Unit.CM3_PER_MIN.toSi(4.80), plateau.toString());
        assertTrue(result.agreement().orElseThrow().agree());
    }

    @Test
    void oilCaughtWhileLettingOffCalibratesALineOfWhichNothingElseIsKnown() {
        // The procedure of EN 805 (AC-02, read in a pipe maker's handbook page): read the pressure lost, then let off
        // and
        // measure. C-03: 1.00 ml from 86.7 bar are 0.011534 ml/bar.
        double c = 1 / 86.7;
        double g = c / 600;
        double fast = 0.93 * c;
        ClosedForm.Line line = ClosedForm.warming(c, fast, 8, g);
        ClosedForm form = new ClosedForm();
        form.strokes = 12;
        form.strokeCm3 = 1.27 / 12;
        form.everyS = 0.6;
        form.holdS = 150;
        form.bleedS = 60;
        form.rateHz = 50;
        ClosedForm.Made made = form.make(line);
        double end = made.trace().pressurePa(made.trace().indexAt(3 + 11 * 0.6 + 150)) / 1e5;
        // The oil comes back isothermally: the trace is a minute long, the heat needs 8 s.
        HoldTestResult result = Results.of(
                made,
                new Known()
                        .bled(cm3(c * end, "1 %"))
                        .transducer(160, 0.1)
                        .air("0 %")
                        .reference("86.7 bar"));
        assertEquals(List.of("bled volume"), result.compliance().orElseThrow().from());
        assertEquals(List.of(Route.DECAY), Results.routes(result));
        assertCompliance(c, 0.12, result);
        assertLeak(g * 86.7 * 60, 0.12, result);
    }

    @Test
    void airMakesPumpingLongerButNoLeakAndNoSoftLineAtHighPressure() {
        // EF-03: 1 l of oil of 1.5 GPa with 1 % air takes 16.50 ml to 100 bar, 6.67 ml without. At 100 bar the line is
        // as stiff as its oil again: V (1 − α)/E + α V p_a/(p_a + p)² = 0.0670 ml/bar, not 0.165.
        double c = 990 / 15_000.0 + 10 * ATMOSPHERE_BAR / Math.pow(100 + ATMOSPHERE_BAR, 2);
        ClosedForm form = new ClosedForm();
        form.strokes = 33;
        form.strokeCm3 = 16.4997 / 33;
        form.everyS = 0.8;
        form.rateHz = 50;
        form.holdS = 200;
        // Bubbles follow isothermally, the oil with the heat of compression (BM-02).
        double heat = 990 / 15_000.0 * 0.1328;
        ClosedForm.Made made = form.make(new Balance(
                p -> c
                        - heat
                        + 10
                                * ATMOSPHERE_BAR
                                * (1 / Math.pow(p + ATMOSPHERE_BAR, 2) - 1 / Math.pow(100 + ATMOSPHERE_BAR, 2)),
                heat,
                40,
                p -> 0));
        HoldTestResult strokes = Results.of(
                made,
                new Known()
                        .stroke("0.49999 ml ± 1 %")
                        .transducer(160, 0.1)
                        .air("1 ± 0.3 %")
                        .volume("1 l ± 5 %")
                        .line("1e-4 cm3/bar")
                        .modulus("1.44 GPa ± 4 %")
                        .kind("cylinder")
                        .reference("100 bar"));
        assertEquals(Law.NONE, leak(strokes).law());
        assertEquals(0, leak(strokes).lower95());
        // EF-03 reckons with a modulus that does not grow. Oil's grows by 7 % to 100 bar (BM-01), known to a seventh of
        // that: a line of EF-03 lies outside what is held possible, and is found within 5 % all the same.
        assertEquals(
                c, Unit.CM3_PER_BAR.fromSi(strokes.compliance().orElseThrow().m3PerPa()), 0.05 * c);
    }

    @Test
    void aTightRigidCylinderThatCoolsDoesNotLeak() {
        // TH-08 with BM-02's moduli: of 111 bar, 13.28 % go as the heat of compression does; no oil is lost. A rule
        // that
        // takes every fall for a leak (C-01) finds C Δp/Δt = 0.2 ml/min and more.
        ClosedForm form = litre(300, 50);
        ClosedForm.Made made = form.make(ClosedForm.warming(SLOW, FAST, 60, 0));
        HoldTestResult result = Results.of(made, knownLitre());
        assertEquals(Law.NONE, leak(result).law());
        assertEquals(0, leak(result).lower95());
        assertTrue(
                Unit.CM3_PER_MIN.fromSi(leak(result).upper95()) < 0.3,
                leak(result).toString());
    }

    @Test
    void oilThatCoolsWithTheWorkshopDoesNotLeak() {
        // TH-10: 150 ml that cool by 0.10 K/min look like 0.011100 ml/min (α = 7.4e-4 1/K), more than twice the leak of
        // C-02. The thermometer tells, or at least the interval keeps what it cannot tell.
        double c = 150 / 13_000.0;
        ClosedForm form = new ClosedForm();
        form.holdS = 600;
        form.rateHz = 20;
        ClosedForm.Made made = form.begunPumpedUp(new Balance(p -> c, 0, 1, p -> 0.0111 / 60), 52 * c);
        HoldTestResult result =
                Results.of(made, oil("150 ml ± 1 %", "1.246 GPa ± 3 %").reference("50 bar"), EstimateOptions.none());
        assertTrue(
                leak(result).law() == Law.NONE || cautions(result).contains("temperature-drift"),
                cautions(result) + " " + leak(result));
        ClosedForm.Made logged = form.withOilTemperature(made, 295, -0.1 / 60);
        HoldTestResult cooled =
                Results.of(logged, oil("150 ml ± 1 %", "1.246 GPa ± 3 %").reference("50 bar"));
        assertEquals(Law.NONE, leak(cooled).law(), leak(cooled).toString());
    }

    @Test
    void aCylinderIsHeldAgainstTheLimitOfItsBore() {
        // AC-40, JB/T 10205-2000 (inspection table, read): bore 100 mm, 0.20 ml/min at the most.
        ClosedForm form = litre(600, 20);
        Known known =
                knownLitre().stroke(cm3(2.5 * SLOW, "1 %")).reference("100 bar").limit("0.20 ml/min");
        HoldTestResult worn = Results.of(form.make(ClosedForm.warming(SLOW, FAST, 60, 0.8 / 60 / 100)), known);
        assertLeak(0.8, 0.1, worn);
        assertEquals(Outcome.OVER_LIMIT, worn.verdict().orElseThrow().outcome());
        HoldTestResult tight = Results.of(form.make(ClosedForm.warming(SLOW, FAST, 60, 0)), known);
        assertEquals(
                Outcome.WITHIN_LIMIT,
                tight.verdict().orElseThrow().outcome(),
                leak(tight).toString());
        assertFalse(cautions(tight).contains("routes-disagree"));
    }
}
