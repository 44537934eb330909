package org.holdtrace.report;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.BiConsumer;
import org.holdtrace.estimate.HoldTestResult;
import org.holdtrace.session.TestSetup;
import org.holdtrace.wording.Phrases;
import org.holdtrace.wording.SafetyText;
import org.holdtrace.wording.ShownUnits;

/** The one page both kinds of report are made from. */
final class ReportPage {

    private final Report report;
    private final Markup page = new Markup();
    private final BiConsumer<Markup, Picture> place;
    private final Optional<CaseSection> judged;

    private final boolean forBrowser;

    private ReportPage(Report report, BiConsumer<Markup, Picture> place, boolean forBrowser) {
        this.report = report;
        this.forBrowser = forBrowser;
        this.place = place;
        judged = report.judged().map(judgement -> new CaseSection(judgement.findings(), report.units(), page));
    }

    /**
     * The page as XHTML.
     *
     * @param place puts a picture into the page
     * @param forBrowser whether a browser prints it, which knows no running elements for the head and foot of its pages
     */
    static String write(Report report, BiConsumer<Markup, Picture> place, boolean forBrowser) {
        return new ReportPage(report, place, forBrowser).write();
    }

    private String write() {
        page.open("html", "xmlns", "http://www.w3.org/1999/xhtml", "lang", "en", "xml:lang", "en");
        page.open("head").open("meta", "charset", "UTF-8").close();
        page.element("title", title());
        page.open("meta", "name", "description", "content", "Hold test report by " + report.version());
        page.close();
        page.open("style")
                .raw(style(report.paper()) + (forBrowser ? margins() : ""))
                .close()
                .close();
        page.open("body");
        if (!forBrowser) {
            running();
        }
        firstPage();
        judged.ifPresent(CaseSection::reasons);
        List<Report.Test> tests = report.tests();
        for (int i = 0; i < tests.size(); i++) {
            new TestSection(report, page, place).write(tests.get(i), i + 1, tests.size());
        }
        notTested();
        method();
        safety();
        files();
        if (tests.size() > 1 || judged.isPresent()) {
            signature();
        }
        page.close().close();
        return "<!DOCTYPE html>\n" + page.written();
    }

    private String heading() {
        return judged.isPresent() ? "Case report" : "Hold test report";
    }

    private String title() {
        Set<String> machines = machines();
        return heading() + (machines.isEmpty() ? "" : ": " + String.join("; ", machines));
    }

    private Set<String> machines() {
        Set<String> machines = new LinkedHashSet<>();
        report.judged()
                .ifPresent(judgement ->
                        machines.add(judgement.findings().caseFile().machine()));
        if (!machines.isEmpty()) {
            return machines;
        }
        for (Examined recording : report.recordings()) {
            recording.setup().machine().ifPresent(machines::add);
        }
        return machines;
    }

    /** The style sheet for {@code paper}. */
    static String style(Paper paper) {
        try (InputStream in = ReportPage.class.getResourceAsStream("report.css")) {
            return "@page { size: " + paper.cssName() + "; }\n" + new String(in.readAllBytes(), StandardCharsets.UTF_8);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** What stands at the head and foot of every printed page, as elements that run along. */
    private void running() {
        page.open("div", "class", "head").element("span", head()).close();
        page.open("div", "class", "mark").element("span", mark()).close();
        page.open("div", "class", "foot").element("span", report.version()).close();
    }

    private String head() {
        return machines().size() > 1 ? heading() : title();
    }

    private String mark() {
        return report.simulated() ? "SIMULATED: NOTHING HERE WAS MEASURED" : "";
    }

    /** The same as texts in the margins, which browsers print. */
    private String margins() {
        String small = "font-family: 'DejaVu Sans', Verdana, sans-serif; font-size: 7.5pt; white-space: nowrap;";
        return "@page {\n  @top-left { content: " + quoted(head()) + "; " + small + " color: #444; }\n"
                + "  @top-right { content: " + quoted(mark()) + "; " + small + " font-weight: bold; }\n"
                + "  @bottom-left { content: " + quoted(report.version()) + "; " + small + " color: #444; }\n}\n";
    }

    /** A text in a style sheet: what could end it, or the sheet, is escaped (CSS Syntax Module Level 3, 4.3.7). */
    private static String quoted(String text) {
        StringBuilder quoted = new StringBuilder("\"");
        text.codePoints().forEach(c -> {
            if (c < ' ' || c == '"' || c == '\\' || c == '<' || c == '>' || c == '&') {
                quoted.append('\\').append(Integer.toHexString(c)).append(' ');
            } else {
                quoted.appendCodePoint(c);
            }
        });
        return quoted.append('"').toString();
    }

    private void firstPage() {
        page.element("h1", heading());
        if (report.simulated()) {
            page.element("p", simulatedWords(), "class", "simulated");
        }
        List<Report.Test> tests = report.tests();
        if (judged.isPresent()) {
            judged.get().decision();
        } else if (tests.size() == 1) {
            one(tests.get(0));
        } else {
            several(tests);
        }
        unusable();
        page.element("p", SafetyText.SHORT, "class", "safety");
        if (tests.size() == 1 && judged.isEmpty()) {
            signature();
        }
    }

    private void unusable() {
        if (report.unusable().isEmpty()) {
            return;
        }
        page.open("div", "class", "unusable");
        page.element("h3", "Inputs that gave no result: they say nothing, neither good nor bad");
        page.open("table").open("tbody");
        for (Unusable input : report.unusable()) {
            page.row(input.name(), input.reason());
        }
        page.close().close().close();
    }

    private String simulatedWords() {
        long simulated =
                report.recordings().stream().filter(Examined::simulated).count();
        return (simulated == report.recordings().size()
                        ? "SIMULATED. "
                        : "PARTLY SIMULATED: " + simulated + " of "
                                + report.recordings().size() + " recordings. ")
                + "These recordings were computed and no oil was ever under pressure: machine, fault and figures are"
                + " invented, and nothing follows from them for any real machine.";
    }

    private void one(Report.Test test) {
        TestSetup setup = test.of().setup();
        page.open("table", "class", "what").open("tbody");
        page.row("Machine", setup.machine().orElse("not stated"));
        page.row("Component", component(setup));
        page.row("Recorded", test.of().trace().start().map(Values::instant).orElse("the recording bears no date"));
        page.close().close();
        box(test.result());
    }

    static String component(TestSetup setup) {
        List<String> parts = new ArrayList<>();
        setup.component().ifPresent(parts::add);
        setup.port().ifPresent(port -> parts.add("port " + port));
        String named = String.join(", ", parts);
        String kind = setup.componentKind().map(k -> "(" + k + ")").orElse("");
        return named.isEmpty() && kind.isEmpty() ? "not stated" : (named + " " + kind).strip();
    }

    private void box(HoldTestResult result) {
        page.open("div", "class", "box " + CustomerWords.style(result));
        page.element("p", CustomerWords.verdict(result), "class", "verdict");
        if (result.leak().isPresent()) {
            HoldTestResult.Leak leak = result.leak().get();
            page.element("p", CustomerWords.leak(leak, report.units()), "class", "figure");
            Optional<Double> limit = result.verdict().map(HoldTestResult.Verdict::limitM3PerS);
            place.accept(
                    page,
                    new Picture(
                            "interval",
                            IntervalPicture.WIDTH,
                            IntervalPicture.HEIGHT,
                            0.9,
                            "The leak with its interval on a line from zero"
                                    + (limit.isPresent() ? ", and the limit" : ""),
                            g -> IntervalPicture.draw(g, leak, limit, report.units())));
        }
        for (String sentence : CustomerWords.meaning(result, report.units())) {
            page.element("p", sentence);
        }
        int cautions = result.cautions().size();
        if (cautions > 0) {
            page.element(
                    "p",
                    (cautions == 1 ? "There is a caution" : "There are " + cautions + " cautions")
                            + " about this result: see \"Cautions of the analysis\".");
        }
        page.close();
    }

    private void several(List<Report.Test> tests) {
        page.open("div", "class", "box several");
        page.element("p", CustomerWords.counted(tests), "class", "figure");
        page.close();
        page.open("table", "class", "summary");
        String flow = " [" + ShownUnits.name(report.units().flow()) + "]";
        String pressure = " [" + ShownUnits.name(report.units().pressure()) + "]";
        page.head("", "Machine, component", "Leak, 95 % interval" + flow, "At" + pressure, "Limit" + flow, "Verdict");
        page.open("tbody");
        for (int i = 0; i < tests.size(); i++) {
            Report.Test test = tests.get(i);
            HoldTestResult result = test.result();
            Optional<HoldTestResult.Leak> leak = result.leak();
            String subject = Phrases.subject(test.of().setup());
            page.open("tr").element("th", Integer.toString(i + 1), "scope", "row");
            page.element("td", subject.isEmpty() ? test.of().file().name() : subject);
            page.element(
                    "td", leak.map(l -> TestSection.figures(l, report.units())).orElse("no rate"));
            page.element(
                    "td",
                    leak.map(l -> Values.figure(l.atPa(), report.units().pressure()))
                            .orElse(""));
            page.element(
                    "td",
                    result.verdict()
                            .map(v -> Values.figure(
                                    v.limitM3PerS(), report.units().flow()))
                            .orElse("none given"));
            page.element("td", CustomerWords.inTable(result), "class", CustomerWords.style(result));
            page.close();
        }
        page.close().close();
    }

    private void notTested() {
        page.open("div", "class", "section");
        page.element("h2", "What was not tested");
        page.open("ul");
        judged.map(CaseSection::notTested)
                .filter(words -> !words.isEmpty())
                .ifPresent(words -> page.element("li", words));
        page.element(
                "li",
                "Anything but the components and ports named in this report. Other ports, valves, cylinders,"
                        + " lines, pumps and motors of the machine may leak and would not show here.");
        page.element(
                "li",
                judged.isPresent()
                        ? judged.get().lookedAt()
                        : "Leaks to the outside were not looked for; oil that leaves the line anywhere counts as leak"
                                + " of the component.");
        page.element(
                "li",
                "Other pressures and oil temperatures than those of the test, unless the report says that a"
                        + " figure was carried over. Thinner, warmer oil leaks more.");
        page.element(
                "li",
                !report.lineCheck().isEmpty()
                        ? "The test line's own leak and compliance were measured with the adapter plugged ("
                                + report.lineCheck().get(0).name() + ") and are taken off."
                        : "The test line itself: what hose and fittings lose counts as leak of the component.");
        page.element("li", "Movement, load and wear over time: a hold test sees one position on one day.");
        page.close().close();
    }

    private void method() {
        page.open("div", "class", "section");
        page.element("h2", "Method");
        page.element(
                "p",
                "The port is pumped up with a hand pump, the line is shut, and pressure is recorded. What was"
                        + " pumped in is stored in the line or leaks out (balance of volumes). The leak rate follows by up to three"
                        + " routes that rest on different inputs: the fall of pressure with the known volume and oil (decay), the"
                        + " pump strokes as a calibration (stroke tails), and pumping against leaking at a standing pressure"
                        + " (plateau flow). Heat of compression, hose creep, air and drift are in the model. It is a volume of oil at"
                        + " line pressure.");
        page.element(
                "p",
                "Intervals are 95 % coverage intervals after the Guide to the expression of uncertainty in"
                        + " measurement (JCGM 100) and its Supplement 1 (JCGM 101). A leak is called over or within its limit when"
                        + " that is at least 97.5 % probable, and undecided otherwise.");
        if (judged.isPresent()) {
            page.element(
                    "p",
                    "A test measures the sum of what leaks between the pressed oil and low pressure. How probable it is for"
                            + " each part to be over its limit follows from all tests together by Bayes' rule over all"
                            + " combinations of parts, from how often such parts fail, the complaint, what was seen outside, the"
                            + " leaks measured and their laws. A part is over its limit from 97.5 % on, and cleared when it was"
                            + " tested or looked at and that probability is at most 2.5 %, also if such parts fail more or less often than taken"
                            + " for granted; and the parts tested and cleared are all in order together as surely.");
        }
        page.element(
                "p",
                "Computed by " + report.version() + "; the same recording, setup and version give this report"
                        + " again, byte for byte.");
        page.close();
    }

    private void safety() {
        page.open("div", "class", "section");
        page.element("h2", "Before anyone goes to the machine");
        page.element("p", SafetyText.FIRST);
        page.open("ul");
        SafetyText.RULES.forEach(rule -> page.element("li", rule));
        page.close();
        page.element("p", SafetyText.LAST);
        page.close();
    }

    private void files() {
        page.open("div", "class", "section");
        page.element("h2", "Files this report rests on");
        page.open("table", "class", "files");
        page.head("File", "Bytes", "SHA-256");
        page.open("tbody");
        Set<FileProof> proofs = new LinkedHashSet<>();
        report.judged().ifPresent(judgement -> proofs.add(judgement.file()));
        proofs.addAll(report.lineCheck());
        for (Examined recording : report.recordings()) {
            proofs.add(recording.file());
            proofs.addAll(recording.beside());
        }
        proofs.forEach(proof -> file(proof.name(), Long.toString(proof.bytes()), proof.sha256()));
        report.unusable().forEach(input -> input.sha256().ifPresent(sum -> file(input.name(), "gave no result", sum)));
        page.close().close().close();
    }

    private void file(String name, String bytes, String sum) {
        page.open("tr").element("th", name, "scope", "row");
        page.element("td", bytes);
        page.open("td", "class", "sum").element("span", sum.substring(0, 32)).text(" ");
        page.element("span", sum.substring(32)).close().close();
    }

    private void signature() {
        page.open("div", "class", "section signature");
        page.element("h2", "Signatures");
        page.open("table").open("tbody");
        for (String who : List.of("Tested by", "Checked by", "Received by")) {
            page.row(who, "name", "date", "signature");
        }
        page.close().close().close();
    }
}
