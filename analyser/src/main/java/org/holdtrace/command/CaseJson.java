package org.holdtrace.command;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.holdtrace.estimate.HoldTestResult;
import org.holdtrace.judge.Beliefs;
import org.holdtrace.judge.CaseFindings;
import org.holdtrace.judge.CaseFindings.ElementFinding;
import org.holdtrace.judge.CaseTest;
import org.holdtrace.judge.DriftFinding;
import org.holdtrace.judge.Element;
import org.holdtrace.judge.PlannedTest;
import org.holdtrace.quantity.Quantity;
import org.holdtrace.quantity.Unit;
import org.holdtrace.wording.Figures;

/** Findings of a case for other programs: one JSON object, its fields as {@code docs/case.md} lists them. */
final class CaseJson {
    private final JsonGenerator json;

    private CaseJson(JsonGenerator json) {
        this.json = json;
    }

    /** Writes all of it to {@code out}, which stays open. */
    static void write(Path file, CaseFindings findings, List<String> refused, OutputStream out) throws IOException {
        JsonFactory factory = new JsonFactory();
        factory.disable(JsonGenerator.Feature.AUTO_CLOSE_TARGET);
        try (JsonGenerator json = factory.createGenerator(out)) {
            json.useDefaultPrettyPrinter();
            new CaseJson(json).all(file, findings, refused);
            json.writeRaw('\n');
        }
    }

    private void all(Path file, CaseFindings findings, List<String> refused) throws IOException {
        json.writeStartObject();
        json.writeStringField("file", file.getFileName().toString());
        json.writeStringField("machine", findings.caseFile().machine());
        complaint(findings);
        json.writeStringField("standing", findings.standing().label());
        texts("summary", findings.summary());
        json.writeArrayFieldStart("parts");
        for (ElementFinding element : findings.elements()) {
            part(element);
        }
        json.writeEndArray();
        json.writeArrayFieldStart("combinations");
        for (Beliefs.Combination combination : findings.combinations()) {
            json.writeStartObject();
            texts("over", combination.over());
            number("probability", combination.probability());
            json.writeEndObject();
        }
        json.writeEndArray();
        json.writeArrayFieldStart("tests");
        for (CaseFindings.TestFinding test : findings.tests()) {
            test(test);
        }
        json.writeEndArray();
        texts("refused", refused);
        contradictions(findings.contradictions());
        drift(findings.drift());
        json.writeArrayFieldStart("next");
        for (PlannedTest planned : findings.next()) {
            planned(planned);
        }
        json.writeEndArray();
        texts("notTested", findings.notTested());
        number("probabilityClearedOver", findings.probabilityClearedOver());
        texts("cautions", findings.cautions());
        json.writeEndObject();
    }

    private void complaint(CaseFindings findings) throws IOException {
        json.writeObjectFieldStart("complaint");
        json.writeStringField("actuator", findings.caseFile().complaint().actuator());
        json.writeStringField(
                "direction", findings.caseFile().complaint().direction().label());
        optional("speedMmPerMin", findings.caseFile().complaint().speedMPerS(), Unit.MM_PER_MIN);
        optional("loadBar", findings.caseFile().complaint().loadPressurePa(), Unit.BAR);
        json.writeEndObject();
    }

    private void part(ElementFinding found) throws IOException {
        Element element = found.element();
        json.writeStartObject();
        json.writeStringField("name", element.name());
        json.writeStringField("kind", element.kind().label());
        json.writeStringField("from", element.from());
        json.writeStringField("to", element.to());
        number("limitCm3PerMin", Figures.cm3PerMin(found.limitM3PerS()));
        json.writeObjectFieldStart("limitAsStated");
        number("cm3PerMin", Figures.cm3PerMin(element.limit().m3PerS()));
        optional("atBar", element.limit().atPa(), Unit.BAR);
        optional("atDegC", element.limit().atTemperatureK(), Unit.DEG_C);
        json.writeStringField("basis", element.limit().basis().label());
        json.writeStringField("source", element.limit().source());
        json.writeEndObject();
        number("prior", element.prior());
        json.writeBooleanField("priorStated", element.priorStated());
        number("probabilityBefore", found.before());
        number("probabilityOver", found.probability());
        number("lowestWithOtherPriors", found.lowest());
        number("highestWithOtherPriors", found.highest());
        json.writeBooleanField("restsOnPriors", found.restsOnPriors());
        json.writeStringField("status", found.status().label());
        json.writeBooleanField("couldCauseComplaint", found.onPath());
        json.writeEndObject();
    }

    private void arrangement(CaseTest test) throws IOException {
        json.writeStringField("name", test.name());
        json.writeStringField("pressurised", test.pressurised());
        texts("joined", test.joined());
        texts("open", test.open());
        texts("blocked", test.blocked());
        texts("blanked", test.blanked());
    }

    private void test(CaseFindings.TestFinding test) throws IOException {
        json.writeStartObject();
        arrangement(test.measured().test());
        json.writeStringField("file", test.measured().test().file());
        json.writeNumberField("number", test.measured().test().number());
        elements("implicates", test.reach().direct());
        elements("together", test.reach().together());
        Optional<HoldTestResult.Leak> leak = test.measured().leak();
        if (leak.isEmpty()) {
            json.writeNullField("leak");
        } else {
            json.writeObjectFieldStart("leak");
            number("cm3PerMin", Figures.cm3PerMin(leak.get().m3PerS()));
            number("lower95", Figures.cm3PerMin(leak.get().lower95()));
            number("upper95", Figures.cm3PerMin(leak.get().upper95()));
            number("atBar", Figures.bar(leak.get().atPa()));
            json.writeStringField("law", leak.get().law().label());
            json.writeEndObject();
        }
        json.writeArrayFieldStart("changes");
        for (CaseFindings.Change change : test.changes()) {
            json.writeStartObject();
            json.writeStringField("part", change.element());
            number("before", change.before());
            number("after", change.after());
            json.writeEndObject();
        }
        json.writeEndArray();
        texts("said", test.said());
        json.writeEndObject();
    }

    private void contradictions(List<CaseFindings.Contradiction> contradictions) throws IOException {
        json.writeArrayFieldStart("contradictions");
        for (CaseFindings.Contradiction contradiction : contradictions) {
            json.writeStartObject();
            json.writeStringField("first", contradiction.first());
            json.writeStringField("second", contradiction.second());
            number("standardUncertainties", contradiction.standardUncertainties());
            json.writeStringField("said", contradiction.said());
            json.writeEndObject();
        }
        json.writeEndArray();
    }

    private void drift(Optional<DriftFinding> found) throws IOException {
        if (found.isEmpty()) {
            json.writeNullField("drift");
            return;
        }
        DriftFinding drift = found.get();
        json.writeObjectFieldStart("drift");
        json.writeStringField("outcome", drift.outcome().label());
        texts("tests", drift.tests());
        number("leakCm3PerMin", Figures.cm3PerMin(drift.leakM3PerS()));
        number("leakLower95", Figures.cm3PerMin(drift.leakLower95()));
        number("leakUpper95", Figures.cm3PerMin(drift.leakUpper95()));
        number("atBar", Figures.bar(drift.atPa()));
        number("areaCm2", drift.areaM2() * 1e4);
        number("speedMmPerMin", Unit.MM_PER_MIN.fromSi(drift.speedMPerS()));
        number("speedLower95", Unit.MM_PER_MIN.fromSi(drift.speedLower95()));
        number("speedUpper95", Unit.MM_PER_MIN.fromSi(drift.speedUpper95()));
        number("complainedMmPerMin", Unit.MM_PER_MIN.fromSi(drift.complainedMPerS()));
        texts("said", drift.said());
        json.writeEndObject();
    }

    private void planned(PlannedTest planned) throws IOException {
        json.writeStartObject();
        arrangement(planned.test());
        elements("implicates", planned.reach().direct());
        number("bits", planned.bits());
        number("minutes", planned.wholeS() / 60);
        number("probabilityWithin", planned.probabilityPass());
        number("pressureBar", Figures.bar(planned.pressurePa()));
        json.writeStringField("pressureFrom", planned.pressureFrom());
        number("pumpedCm3", planned.pumpedM3() * 1e6);
        if (planned.strokes().isPresent()) {
            number("strokes", planned.strokes().getAsDouble());
        } else {
            json.writeNullField("strokes");
        }
        number("holdS", planned.holdS());
        number("resolvesCm3PerMin", Figures.cm3PerMin(planned.limitM3PerS()));
        json.writeStringField("ifHolds", planned.ifHolds());
        json.writeStringField("ifLeaks", planned.ifLeaks());
        texts("cautions", planned.cautions());
        json.writeEndObject();
    }

    private void elements(String name, List<Element> elements) throws IOException {
        texts(name, elements.stream().map(Element::name).toList());
    }

    private void texts(String name, List<String> texts) throws IOException {
        json.writeArrayFieldStart(name);
        for (String text : texts) {
            json.writeString(text);
        }
        json.writeEndArray();
    }

    private void optional(String name, Optional<Quantity> quantity, Unit unit) throws IOException {
        if (quantity.isEmpty()) {
            json.writeNullField(name);
            return;
        }
        json.writeObjectFieldStart(name);
        number("value", unit.fromSi(quantity.get().value()));
        number("standardUncertainty", unit.differenceFromSi(quantity.get().standardUncertainty()));
        json.writeEndObject();
    }

    private void optional(String name, OptionalDouble value, Unit unit) throws IOException {
        if (value.isEmpty()) {
            json.writeNullField(name);
        } else {
            number(name, unit.fromSi(value.getAsDouble()));
        }
    }

    private void number(String name, double value) throws IOException {
        if (Double.isFinite(value)) {
            json.writeNumberField(name, Figures.sixDigits(value));
        } else {
            json.writeNullField(name);
        }
    }
}
