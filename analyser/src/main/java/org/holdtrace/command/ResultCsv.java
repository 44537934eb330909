package org.holdtrace.command;

import de.siegmar.fastcsv.writer.CsvWriter;
import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.holdtrace.estimate.HoldTestResult;
import org.holdtrace.wording.Figures;

/** Results for spreadsheets: a line a hold test, named like the fields of the JSON output; what is absent is empty. */
final class ResultCsv implements ResultSink {
    private static final String[] HEADER = {
        "file",
        "number",
        "cm3PerMin",
        "lower95",
        "upper95",
        "atBar",
        "law",
        "lawWeight",
        "smallestResolvableCm3PerMin",
        "decayCm3PerMin",
        "strokeTailsCm3PerMin",
        "plateauFlowCm3PerMin",
        "agree",
        "outcome",
        "limitCm3PerMin",
        "probabilityOver",
        "complianceCm3PerBar",
        "cautions"
    };

    private final CsvWriter csv;

    ResultCsv(Path file) throws IOException {
        csv = CsvWriter.builder().build(file);
        csv.writeRecord(HEADER);
    }

    @Override
    public void session(SessionResult session) {
        for (HoldTestResult result : session.tests()) {
            List<String> line = new ArrayList<>(HEADER.length);
            line.add(session.input().name());
            line.add(Integer.toString(result.holdTest().number()));
            leak(result.leak(), line);
            for (HoldTestResult.Route route : HoldTestResult.Route.values()) {
                line.add(rate(result, route));
            }
            line.add(result.agreement().map(a -> Boolean.toString(a.agree())).orElse(""));
            line.add(result.verdict().map(v -> v.outcome().label()).orElse(""));
            line.add(session.setup()
                    .limitM3PerS()
                    .map(limit -> number(Figures.cm3PerMin(limit.value())))
                    .orElse(""));
            line.add(result.verdict().map(v -> number(v.probabilityOver())).orElse(""));
            line.add(result.compliance()
                    .map(c -> number(Figures.cm3PerBar(c.m3PerPa())))
                    .orElse(""));
            line.add(codes(result.cautions()));
            csv.writeRecord(line);
        }
    }

    @Override
    public void close() throws IOException {
        csv.close();
    }

    private static void leak(Optional<HoldTestResult.Leak> leak, List<String> line) {
        if (leak.isEmpty()) {
            for (int i = 0; i < 7; i++) {
                line.add("");
            }
            return;
        }
        HoldTestResult.Leak found = leak.get();
        line.add(number(Figures.cm3PerMin(found.m3PerS())));
        line.add(number(Figures.cm3PerMin(found.lower95())));
        line.add(number(Figures.cm3PerMin(found.upper95())));
        line.add(number(Figures.bar(found.atPa())));
        line.add(found.law().label());
        line.add(number(found.weights().getOrDefault(found.law(), 0.0)));
        line.add(number(Figures.cm3PerMin(found.smallestResolvableM3PerS())));
    }

    private static String rate(HoldTestResult result, HoldTestResult.Route route) {
        for (HoldTestResult.RouteRate rate : result.routes()) {
            if (rate.route() == route) {
                return number(Figures.cm3PerMin(rate.m3PerS()));
            }
        }
        return "";
    }

    private static String codes(List<HoldTestResult.Caution> cautions) {
        StringBuilder codes = new StringBuilder();
        for (HoldTestResult.Caution caution : cautions) {
            codes.append(codes.length() == 0 ? "" : " ").append(caution.code());
        }
        return codes.toString();
    }

    private static String number(double value) {
        return Double.isFinite(value) ? Double.toString(Figures.sixDigits(value)) : "";
    }
}
