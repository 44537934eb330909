package org.holdtrace.command;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import java.io.OutputStream;
import java.util.List;
import java.util.Optional;
import org.holdtrace.estimate.HoldTestResult;
import org.holdtrace.leak.Law;
import org.holdtrace.session.TestSetup;
import org.holdtrace.trace.PhaseSpan;
import org.holdtrace.trace.Stroke;
import org.holdtrace.trace.Trace;
import org.holdtrace.wording.Figures;

/**
 * Results for other programs: one JSON object, a session at a time as they are ready. Field names and order are fixed;
 * what is absent is null. Never NaN: what cannot be a number is null too.
 */
final class ResultJson implements ResultSink {
    private final JsonGenerator json;

    /** Begins the object on {@code out}, which stays open on {@link #close()}. */
    ResultJson(OutputStream out) throws IOException {
        JsonFactory factory = new JsonFactory();
        factory.disable(JsonGenerator.Feature.AUTO_CLOSE_TARGET);
        json = factory.createGenerator(out);
        json.useDefaultPrettyPrinter();
        json.writeStartObject();
        json.writeArrayFieldStart("sessions");
    }

    @Override
    public void session(SessionResult session) throws IOException {
        json.writeStartObject();
        body(session);
        json.writeEndObject();
    }

    /** Writes the next session with its samples, zero error included as recorded. */
    void session(SessionResult session, Trace trace) throws IOException {
        json.writeStartObject();
        body(session);
        json.writeObjectFieldStart("samples");
        json.writeArrayFieldStart("timeS");
        for (int i = 0; i < trace.size(); i++) {
            json.writeNumber(Figures.tenthMilliseconds(trace.timeS(i)));
        }
        json.writeEndArray();
        json.writeArrayFieldStart("pressureBar");
        for (int i = 0; i < trace.size(); i++) {
            number(Figures.bar(trace.pressurePa(i)));
        }
        json.writeEndArray();
        if (trace.hasOilTemperature()) {
            json.writeArrayFieldStart("oilTemperatureDegC");
            for (int i = 0; i < trace.size(); i++) {
                number(Figures.degC(trace.oilTemperatureK(i)));
            }
            json.writeEndArray();
        }
        if (trace.hasAmbientTemperature()) {
            json.writeArrayFieldStart("ambientTemperatureDegC");
            for (int i = 0; i < trace.size(); i++) {
                number(Figures.degC(trace.ambientTemperatureK(i)));
            }
            json.writeEndArray();
        }
        json.writeEndObject();
        json.writeEndObject();
    }

    @Override
    public void close() throws IOException {
        json.writeEndArray();
        json.writeEndObject();
        json.writeRaw('\n');
        json.close();
    }

    private void body(SessionResult session) throws IOException {
        json.writeStringField("file", session.input().name());
        json.writeStringField("path", session.input().path().toString());
        json.writeArrayFieldStart("holdTests");
        for (int i = 0; i < session.tests().size(); i++) {
            json.writeStartObject();
            holdTest(session.tests().get(i), session.setup());
            if (!session.charts().isEmpty()) {
                json.writeStringField("chart", session.charts().get(i));
            }
            json.writeEndObject();
        }
        json.writeEndArray();
        if (!session.notes().isEmpty()) {
            json.writeArrayFieldStart("notes");
            for (String note : session.notes()) {
                json.writeString(note);
            }
            json.writeEndArray();
        }
    }

    private void holdTest(HoldTestResult result, TestSetup setup) throws IOException {
        json.writeNumberField("number", result.holdTest().number());
        phases(result.holdTest().phases());
        strokes(result.holdTest().strokes());
        if (result.holdTest().plateauMeanPa().isPresent()) {
            json.writeObjectFieldStart("plateau");
            field("meanBar", Figures.bar(result.holdTest().plateauMeanPa().getAsDouble()));
            json.writeEndObject();
        } else {
            json.writeNullField("plateau");
        }
        compliance(result.compliance());
        leak(result.leak());
        estimates(result.routes());
        agreement(result.agreement());
        verdict(result.verdict(), setup);
        budget(result.budget());
        cautions(result.cautions());
    }

    private void phases(List<PhaseSpan> phases) throws IOException {
        json.writeArrayFieldStart("phases");
        for (PhaseSpan span : phases) {
            json.writeStartObject();
            json.writeStringField("phase", span.phase().label());
            json.writeNumberField("fromS", Figures.tenthMilliseconds(span.fromS()));
            json.writeNumberField("toS", Figures.tenthMilliseconds(span.toS()));
            json.writeEndObject();
        }
        json.writeEndArray();
    }

    private void strokes(List<Stroke> strokes) throws IOException {
        json.writeObjectFieldStart("strokes");
        json.writeNumberField("count", strokes.size());
        json.writeArrayFieldStart("startS");
        for (Stroke stroke : strokes) {
            json.writeNumber(Figures.tenthMilliseconds(stroke.startS()));
        }
        json.writeEndArray();
        json.writeArrayFieldStart("endS");
        for (Stroke stroke : strokes) {
            json.writeNumber(Figures.tenthMilliseconds(stroke.endS()));
        }
        json.writeEndArray();
        json.writeEndObject();
    }

    private void compliance(Optional<HoldTestResult.Compliance> compliance) throws IOException {
        if (compliance.isEmpty()) {
            json.writeNullField("compliance");
            return;
        }
        HoldTestResult.Compliance c = compliance.get();
        json.writeObjectFieldStart("compliance");
        field("cm3PerBar", Figures.cm3PerBar(c.m3PerPa()));
        field("lower95", Figures.cm3PerBar(c.lower95()));
        field("upper95", Figures.cm3PerBar(c.upper95()));
        json.writeArrayFieldStart("from");
        for (String source : c.from()) {
            json.writeString(source);
        }
        json.writeEndArray();
        json.writeEndObject();
    }

    private void leak(Optional<HoldTestResult.Leak> leak) throws IOException {
        if (leak.isEmpty()) {
            json.writeNullField("leak");
            return;
        }
        HoldTestResult.Leak found = leak.get();
        json.writeObjectFieldStart("leak");
        field("cm3PerMin", Figures.cm3PerMin(found.m3PerS()));
        field("lower95", Figures.cm3PerMin(found.lower95()));
        field("upper95", Figures.cm3PerMin(found.upper95()));
        field("atBar", Figures.bar(found.atPa()));
        json.writeStringField("law", found.law().label());
        json.writeObjectFieldStart("lawWeights");
        for (Law law : Law.values()) {
            field(law.label(), found.weights().getOrDefault(law, 0.0));
        }
        json.writeEndObject();
        field("smallestResolvableCm3PerMin", Figures.cm3PerMin(found.smallestResolvableM3PerS()));
        json.writeEndObject();
    }

    private void estimates(List<HoldTestResult.RouteRate> routes) throws IOException {
        json.writeArrayFieldStart("estimates");
        for (HoldTestResult.RouteRate route : routes) {
            json.writeStartObject();
            json.writeStringField("method", route.route().label());
            field("cm3PerMin", Figures.cm3PerMin(route.m3PerS()));
            field("lower95", Figures.cm3PerMin(route.lower95()));
            field("upper95", Figures.cm3PerMin(route.upper95()));
            json.writeEndObject();
        }
        json.writeEndArray();
    }

    private void agreement(Optional<HoldTestResult.Agreement> agreement) throws IOException {
        if (agreement.isEmpty()) {
            json.writeNullField("agreement");
            return;
        }
        json.writeObjectFieldStart("agreement");
        field("chiSquare", agreement.get().chiSquare());
        json.writeNumberField("degreesOfFreedom", agreement.get().degreesOfFreedom());
        json.writeBooleanField("agree", agreement.get().agree());
        json.writeEndObject();
    }

    private void verdict(Optional<HoldTestResult.Verdict> verdict, TestSetup setup) throws IOException {
        json.writeObjectFieldStart("verdict");
        if (verdict.isPresent()) {
            json.writeStringField("outcome", verdict.get().outcome().label());
            field("limitCm3PerMin", Figures.cm3PerMin(verdict.get().limitM3PerS()));
            field("probabilityOver", verdict.get().probabilityOver());
            if (verdict.get().withheld().isPresent()) {
                json.writeStringField("withheld", verdict.get().withheld().get());
            }
        } else {
            json.writeNullField("outcome");
            if (setup.limitM3PerS().isPresent()) {
                field(
                        "limitCm3PerMin",
                        Figures.cm3PerMin(setup.limitM3PerS().get().value()));
            } else {
                json.writeNullField("limitCm3PerMin");
            }
            json.writeNullField("probabilityOver");
        }
        json.writeEndObject();
    }

    private void budget(List<HoldTestResult.BudgetLine> budget) throws IOException {
        json.writeArrayFieldStart("budget");
        for (HoldTestResult.BudgetLine line : budget) {
            json.writeStartObject();
            json.writeStringField("source", line.source());
            field("standardUncertaintyCm3PerMin", Figures.cm3PerMin(line.standardUncertaintyM3PerS()));
            json.writeEndObject();
        }
        json.writeEndArray();
    }

    private void cautions(List<HoldTestResult.Caution> cautions) throws IOException {
        json.writeArrayFieldStart("cautions");
        for (HoldTestResult.Caution caution : cautions) {
            json.writeStartObject();
            json.writeStringField("code", caution.code());
            json.writeStringField("text", caution.text());
            json.writeEndObject();
        }
        json.writeEndArray();
    }

    private void field(String name, double value) throws IOException {
        json.writeFieldName(name);
        number(value);
    }

    private void number(double value) throws IOException {
        double rounded = Figures.sixDigits(value);
        if (Double.isFinite(rounded)) {
            json.writeNumber(rounded == 0 ? 0.0 : rounded);
        } else {
            json.writeNull();
        }
    }
}
