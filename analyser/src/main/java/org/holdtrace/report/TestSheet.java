package org.holdtrace.report;

import java.io.IOException;
import java.util.List;
import java.util.Map;
import org.holdtrace.judge.CaseFile;
import org.holdtrace.judge.CaseSentences;
import org.holdtrace.judge.Element;
import org.holdtrace.judge.PlannedTest;
import org.holdtrace.wording.Phrases;
import org.holdtrace.wording.SafetyText;
import org.holdtrace.wording.ShownUnits;

/** What a technician takes to the machine: how a planned test is set up, how far to pump, and room to write. */
public final class TestSheet {
    private static final List<String> TO_WRITE = List.of(
            "Session file",
            "Oil temperature, before and after",
            "Pressure when pumping stopped; at the end, after how long",
            "Full strokes counted",
            "Rod position; whether it moved",
            "Oil seen outside; anything else",
            "Date, name, signature");

    private final CaseFile file;
    private final PlannedTest planned;
    private final int number;
    private final ShownUnits units;
    private final Markup page = new Markup();

    private TestSheet(CaseFile file, PlannedTest planned, int number, ShownUnits units) {
        this.units = units;
        this.file = file;
        this.planned = planned;
        this.number = number;
    }

    /** The sheet as PDF/A-2b; the same bytes for the same test and version. */
    public static byte[] pdf(
            CaseFile file, PlannedTest planned, int number, Paper paper, ShownUnits units, String version)
            throws IOException {
        return PdfReport.write(new TestSheet(file, planned, number, units).write(paper, version), Map.of(), version);
    }

    private String write(Paper paper, String version) {
        String title = "Test sheet " + number + ": " + file.machine();
        page.open("html", "xmlns", "http://www.w3.org/1999/xhtml", "lang", "en", "xml:lang", "en");
        page.open("head").open("meta", "charset", "UTF-8").close();
        page.element("title", title);
        page.open("meta", "name", "description", "content", "Test sheet by " + version);
        page.close();
        page.open("style").raw(ReportPage.style(paper)).close().close();
        page.open("body", "class", "sheet");
        page.open("div", "class", "head").element("span", title).close();
        page.open("div", "class", "foot").element("span", version).close();
        page.element("h1", "Test sheet " + number);
        page.open("table", "class", "what").open("tbody");
        page.row("Machine", file.machine());
        page.row("Complaint", CaseSentences.complaint(file, units));
        page.row("Test", planned.test().name());
        page.close().close();
        safety();
        section("Set it up");
        list(CaseSentences.arrangement(planned.test(), file.circuit()));
        if (!planned.cautions().isEmpty()) {
            section("Mind with this test");
            list(planned.cautions());
        }
        numbers();
        section("What it will tell");
        page.element(
                "p",
                "Oil that leaves the pressed side comes through "
                        + String.join(
                                ", ",
                                planned.reach().direct().stream()
                                        .map(Element::name)
                                        .toList()) + ".");
        list(List.of("If it holds: " + planned.ifHolds() + ".", "If it leaks: " + planned.ifLeaks() + "."));
        section("Write down");
        page.open("table", "class", "write").open("tbody");
        TO_WRITE.forEach(what -> page.row(what, ""));
        page.close().close();
        page.close().close();
        return "<!DOCTYPE html>\n" + page.written();
    }

    private void safety() {
        page.open("div", "class", "safety");
        page.element("p", SafetyText.FIRST);
        list(SafetyText.RULES);
        page.close();
    }

    private void numbers() {
        section("Pump and hold");
        page.open("table", "class", "what").open("tbody");
        page.row("Pump to", Phrases.pressure(planned.pressurePa(), units) + " and never above");
        page.close().close();
        page.element("p", CaseSentences.sizes(planned, units));
        page.element(
                "p",
                "If pressure stalls below it, pump on evenly for half a minute and stop: the plateau is a result. Shut"
                        + " the valve after the last stroke, hands off, and let it hold. Let the pressure off before any"
                        + " fitting is touched.");
    }

    private void section(String heading) {
        page.element("h3", heading);
    }

    private void list(List<String> items) {
        page.open("ul");
        items.forEach(item -> page.element("li", item));
        page.close();
    }
}
