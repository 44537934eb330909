package org.holdtrace.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.BiConsumer;
import java.util.function.Function;
import org.holdtrace.chart.HoldTestChart;
import org.holdtrace.estimate.EstimateOptions;
import org.holdtrace.estimate.HoldTestResult;
import org.holdtrace.leak.Law;
import org.holdtrace.quantity.Quantity;
import org.holdtrace.quantity.Unit;
import org.holdtrace.session.Calibration;
import org.holdtrace.session.Channel;
import org.holdtrace.session.ChannelKind;
import org.holdtrace.session.SessionHeader;
import org.holdtrace.session.TestSetup;
import org.holdtrace.trace.HoldTest;
import org.holdtrace.trace.Phase;
import org.holdtrace.trace.PhaseSpan;
import org.holdtrace.wording.Figures;
import org.holdtrace.wording.Phrases;
import org.holdtrace.wording.Sentences;
import org.holdtrace.wording.ShownUnits;

/** One hold test in full: result, picture, conditions, instruments, cautions. */
final class TestSection {
    private static final int MOST_BUDGET_LINES = 6;
    private static final double LEAST_WEIGHT_TOLD = 0.05;

    private final ShownUnits units;
    private final EstimateOptions asked;
    private final Markup page;
    private final BiConsumer<Markup, Picture> place;

    TestSection(Report report, Markup page, BiConsumer<Markup, Picture> place) {
        units = report.units();
        asked = report.asked();
        this.page = page;
        this.place = place;
    }

    /** A leak rate and its interval, with unit, in few words. */
    private static String rate(HoldTestResult.Leak leak, ShownUnits units) {
        return figures(leak, units) + " " + ShownUnits.name(units.flow());
    }

    /** The same without the unit. */
    static String figures(HoldTestResult.Leak leak, ShownUnits units) {
        return leak.law() == Law.NONE
                ? "none above " + Figures.significant(units.flow().fromSi(leak.upper95()), 2)
                : Phrases.rateWithInterval(leak.m3PerS(), leak.lower95(), leak.upper95(), units);
    }

    void write(Report.Test test, int number, int of) {
        HoldTestResult result = test.result();
        page.open("div", "class", "test");
        String subject = Phrases.subject(test.of().setup());
        page.element(
                "h2",
                (of == 1 ? "The hold test" : "Hold test " + number + " of " + of)
                        + (subject.isEmpty() ? "" : ": " + subject));
        page.element(
                "p",
                "Recording " + test.of().file().name() + ", hold test "
                        + result.holdTest().number() + " in it"
                        + test.of()
                                .trace()
                                .start()
                                .map(s -> ", begun " + Values.instant(s))
                                .orElse("")
                        + (test.of().simulated() ? ". Simulated: nothing here was measured." : "."),
                "class",
                "source");
        if (of > 1) {
            page.open("div", "class", "box small " + CustomerWords.style(result));
            page.element("p", CustomerWords.verdict(result), "class", "verdict");
            result.leak().ifPresent(l -> page.element("p", CustomerWords.leak(l, units), "class", "figure"));
            CustomerWords.meaning(result, units).forEach(sentence -> page.element("p", sentence));
            page.close();
        }
        place.accept(
                page,
                new Picture(
                        "test" + number,
                        HoldTestChart.WIDTH,
                        HoldTestChart.PANELS_HEIGHT,
                        1,
                        "Pressure over the hold test with its phases; the fit over the hold; leak against pressure; the"
                                + " routes to the leak rate",
                        g -> HoldTestChart.drawPanels(
                                g, test.of().trace(), test.of().setup(), result, units)));
        findings(result);
        cautions(test);
        conditions(test);
        instruments(test.of());
        page.close();
    }

    private void table(String heading) {
        page.open("div", "class", "block").element("h3", heading);
        page.open("table").open("tbody");
    }

    private void end() {
        page.close().close().close();
    }

    private void findings(HoldTestResult result) {
        table("Findings");
        result.leak().ifPresent(leak -> {
            page.row("Leak (95 % interval)", rate(leak, units) + " at " + Phrases.pressure(leak.atPa(), units));
            if (leak.law() != Law.NONE) {
                page.row("How it grows with pressure", law(leak));
            }
            page.row("Smallest leak this test could show", Phrases.bound(leak.smallestResolvableM3PerS(), 2, units));
        });
        result.verdict().ifPresent(v -> page.row("Verdict", Phrases.outcome(v, units) + "; " + Sentences.reason(v)));
        for (HoldTestResult.RouteRate route : result.routes()) {
            page.row(
                    "By " + route.route().label(),
                    Phrases.rateWithInterval(route.m3PerS(), route.lower95(), route.upper95(), units) + " "
                            + ShownUnits.name(units.flow()));
        }
        result.agreement()
                .ifPresent(a -> page.row(
                        "Do the routes agree?",
                        (a.agree() ? "yes" : "NO") + " (chi-square " + Figures.significant(a.chiSquare(), 2) + ", "
                                + a.degreesOfFreedom()
                                + (a.degreesOfFreedom() == 1 ? " degree of freedom)" : " degrees of freedom)")));
        result.compliance().ifPresent(c -> {
            double lower = units.compliance().fromSi(c.lower95());
            double upper = units.compliance().fromSi(c.upper95());
            int decimals = Figures.decimalsFor(lower, upper);
            page.row(
                    "Compliance (95 % interval)",
                    Figures.fixed(units.compliance().fromSi(c.m3PerPa()), decimals) + " ("
                            + Figures.fixed(lower, decimals) + " to " + Figures.fixed(upper, decimals) + ") "
                            + ShownUnits.name(units.compliance())
                            + (c.from().isEmpty() ? ", from what is usual" : ", from " + String.join(", ", c.from())));
        });
        List<String> doubts = new ArrayList<>();
        for (HoldTestResult.BudgetLine line : result.budget()) {
            if (doubts.size() < MOST_BUDGET_LINES) {
                doubts.add(line.source() + " "
                        + Figures.significant(units.flow().fromSi(line.standardUncertaintyM3PerS()), 2));
            }
        }
        if (!doubts.isEmpty()) {
            page.row(
                    "Where the doubt comes from",
                    String.join(", ", doubts) + " (standard uncertainty, " + ShownUnits.name(units.flow()) + ")");
        }
        end();
    }

    /** The law with its weight, and the others that are possible. */
    private static String law(HoldTestResult.Leak leak) {
        List<String> others = new ArrayList<>();
        for (Law law : Law.values()) {
            double weight = leak.weights().getOrDefault(law, 0.0);
            if (law != leak.law() && weight >= LEAST_WEIGHT_TOLD) {
                others.add(law.label() + " " + Figures.fixed(weight, 2));
            }
        }
        return Phrases.law(leak.law()) + ", weight "
                + Figures.fixed(leak.weights().getOrDefault(leak.law(), 0.0), 2)
                + (others.isEmpty() ? "" : "; also possible: " + String.join(", ", others));
    }

    private void cautions(Report.Test test) {
        List<String> said = new ArrayList<>();
        test.result().cautions().forEach(caution -> said.add(caution.text()));
        test.of().notes().forEach(note -> said.add("The file: " + note + "."));
        if (said.isEmpty()) {
            return;
        }
        page.open("div", "class", "block")
                .element("h3", "Cautions of the analysis")
                .open("ul");
        said.forEach(caution -> page.element("li", caution));
        page.close().close();
    }

    private void conditions(Report.Test test) {
        HoldTest hold = test.result().holdTest();
        table("What was done (measured)");
        List<String> done = new ArrayList<>();
        hold.phases().forEach(span -> done.add(phase(test, span)));
        page.row("Sequence", String.join("; ", done));
        temperature(
                "Oil temperature",
                test,
                test.of().trace().hasOilTemperature(),
                i -> test.of().trace().oilTemperatureK(i));
        temperature(
                "Temperature around",
                test,
                test.of().trace().hasAmbientTemperature(),
                i -> test.of().trace().ambientTemperatureK(i));
        end();
        table("Conditions as stated in the setup (± standard uncertainty; not measured by this test)");
        TestSetup setup = test.of().setup();
        setup.oilGrade().ifPresent(grade -> page.row("Oil", grade));
        stated("Oil temperature", setup.oilTemperatureK(), units.temperature());
        stated("Bulk modulus of the oil", setup.bulkModulusPa(), Unit.GPA);
        stated("Air in the oil", setup.airFraction(), Unit.PERCENT);
        stated("Trapped volume", setup.trappedVolumeM3(), units.volume());
        stated("Line compliance", setup.lineComplianceM3PerPa(), units.compliance());
        stated("Pump stroke", setup.pumpStrokeM3(), units.volume());
        stated("Oil caught on letting off", setup.bledVolumeM3(), units.volume());
        stated("Reference pressure", setup.referencePressurePa(), units.pressure());
        stated("Relief setting", setup.reliefSettingPa(), units.pressure());
        stated("Limit", setup.limitM3PerS(), units.flow());
        asked.atPa().ifPresent(pa -> page.row("Leak asked for at another pressure", Phrases.pressure(pa, units)));
        asked.atTemperatureK()
                .ifPresent(k ->
                        page.row("Leak asked for at another oil temperature", Values.value(k, 3, units.temperature())));
        page.row("Anything else", "not stated; what is missing widens the interval");
        end();
    }

    /** "hold 24.0 s, from 87.8 bar to 1.9 bar". */
    private String phase(Report.Test test, PhaseSpan span) {
        HoldTest hold = test.result().holdTest();
        String told = span.phase().label() + " " + Values.duration(span.durationS());
        return switch (span.phase()) {
            case HOLD -> told + ", " + held(test, span);
            case PUMP_UP ->
                told + ", " + hold.strokes().size() + (hold.strokes().size() == 1 ? " stroke" : " strokes");
            case PLATEAU ->
                hold.plateauMeanPa().isPresent()
                        ? told + " of it, at a mean of "
                                + Values.pressure(hold.plateauMeanPa().getAsDouble(), units)
                        : told + " of it";
            default -> told;
        };
    }

    private void stated(String name, Optional<Quantity> quantity, Unit unit) {
        quantity.ifPresent(q -> page.row(name, Values.quantity(q, unit)));
    }

    private String held(Report.Test test, PhaseSpan span) {
        double zero = test.result().holdTest().rest().zeroPa();
        double window = Math.min(0.5, span.durationS() / 4);
        double from = mean(
                        test,
                        span.fromS(),
                        span.fromS() + window,
                        i -> test.of().trace().pressurePa(i))
                - zero;
        double to = mean(
                        test,
                        span.toS() - window,
                        span.toS(),
                        i -> test.of().trace().pressurePa(i))
                - zero;
        return "from " + Values.pressure(from, units) + " to " + Values.pressure(to, units);
    }

    private void temperature(String name, Report.Test test, boolean there, Function<Integer, Double> kelvin) {
        Optional<PhaseSpan> hold = test.result().holdTest().phase(Phase.HOLD);
        if (!there || hold.isEmpty()) {
            page.row(name, "not recorded");
            return;
        }
        double mean = mean(test, hold.get().fromS(), hold.get().toS(), kelvin);
        page.row(
                name,
                Double.isFinite(mean)
                        ? Figures.fixed(units.temperature().fromSi(mean), 1) + " "
                                + ShownUnits.name(units.temperature()) + ", mean of the hold"
                        : "no reading during the hold");
    }

    /** Mean of what could be read between two times; NaN where nothing could. */
    private static double mean(Report.Test test, double fromS, double toS, Function<Integer, Double> value) {
        int end = Math.min(test.of().trace().size(), test.of().trace().indexAt(toS) + 1);
        double sum = 0;
        int n = 0;
        for (int i = test.of().trace().indexAt(fromS); i < end; i++) {
            double v = value.apply(i);
            if (Double.isFinite(v)) {
                sum += v;
                n++;
            }
        }
        return n == 0 ? Double.NaN : sum / n;
    }

    private void instruments(Examined recording) {
        table("Instruments and calibration");
        TestSetup setup = recording.setup();
        if (setup.transducerMinPa().isPresent() && setup.transducerMaxPa().isPresent()) {
            page.row(
                    "Transducer, as stated",
                    Values.value(setup.transducerMinPa().get(), 4, units.pressure()) + " to "
                            + Values.value(setup.transducerMaxPa().get(), 4, units.pressure())
                            + setup.transducerAccuracy()
                                    .map(a -> ", accuracy " + Figures.significant(100 * a, 3) + " % of its span")
                                    .orElse(""));
        }
        if (recording.header().isPresent()) {
            SessionHeader header = recording.header().get();
            page.row("Instrument", header.instrument().isEmpty() ? "not named" : header.instrument());
            page.row("Recorded by", header.software().isEmpty() ? "not named" : header.software());
            header.channels().forEach(this::channel);
        } else {
            page.row("Instrument, converter, calibration", "not recorded: the trace is a file of numbers");
        }
        end();
    }

    private void channel(Channel channel) {
        Unit unit = unit(channel.kind());
        Calibration c = channel.calibration();
        List<String> said = new ArrayList<>();
        said.add(Figures.significant(channel.nominalRateHz(), 4) + " Hz");
        if (unit != null) {
            said.add("one converter step " + Values.difference(Math.abs(c.perCount()), 3, unit));
            said.add("line through " + point(c.low(), unit) + " and " + point(c.high(), unit));
        }
        said.add(c.date().map(d -> "checked " + d).orElse("no date of a check recorded"));
        said.add(c.reference().map(r -> "against " + r).orElse("no reference recorded"));
        if (unit != null && !c.residuals().isEmpty()) {
            List<String> off = new ArrayList<>();
            for (Calibration.Residual r : c.residuals()) {
                off.add(Values.difference(r.offBy(), 2, unit) + " at " + Values.value(r.siValue(), 4, unit));
            }
            said.add("off by " + String.join(", ", off));
        } else {
            said.add("no residuals recorded");
        }
        page.row(
                "Channel " + channel.kind().label() + (channel.name().isEmpty() ? "" : " (" + channel.name() + ")"),
                String.join("; ", said));
    }

    private static String point(Calibration.Point point, Unit unit) {
        return Values.value(point.siValue(), 4, unit) + " at " + Figures.significant(point.volts(), 5) + " V";
    }

    /** The unit a channel is shown in; null where it is not known what it measures. */
    private Unit unit(ChannelKind kind) {
        return switch (kind) {
            case PRESSURE, SECOND_PRESSURE -> units.pressure();
            case OIL_TEMPERATURE, AMBIENT_TEMPERATURE -> units.temperature();
            case SUPPLY -> Unit.V;
            case OTHER -> null;
        };
    }
}
