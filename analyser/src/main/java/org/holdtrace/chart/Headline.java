package org.holdtrace.chart;

import java.awt.Font;
import java.awt.Graphics2D;
import java.awt.geom.Rectangle2D;
import java.util.ArrayList;
import java.util.List;
import org.holdtrace.estimate.HoldTestResult;
import org.holdtrace.leak.Law;
import org.holdtrace.session.TestSetup;
import org.holdtrace.wording.Figures;
import org.holdtrace.wording.Phrases;

/** What was tested, the leak rate and the verdict in large words. */
final class Headline {
    private Headline() {}

    static void draw(Graphics2D g, Rectangle2D area, String session, TestSetup setup, HoldTestResult result) {
        double x = area.getX() + 10;
        double width = area.getWidth() - 20;
        String tested = tested(session, setup, result);
        Text.left(g, Text.fitting(g, Ink.TITLE, tested, width), Ink.TEXT, tested, x, area.getY() + 34);
        String statement = statement(result);
        Font large = Text.fitting(g, Ink.STATEMENT, statement, width);
        Text.left(g, large, Ink.TEXT, statement, x, area.getY() + 92);
        String verdict = verdict(result);
        Font font = Text.fitting(g, Ink.VERDICT, verdict, width);
        Text.left(g, font, Ink.TEXT, verdict, x, area.getY() + 142);
    }

    private static String tested(String session, TestSetup setup, HoldTestResult result) {
        String subject = Phrases.subject(setup);
        return (subject.isEmpty() ? "" : subject + "  ·  ") + session + "  ·  hold test "
                + result.holdTest().number();
    }

    private static String statement(HoldTestResult result) {
        if (result.leak().isEmpty()) {
            return "No leak rate from this test";
        }
        HoldTestResult.Leak leak = result.leak().get();
        String at = " at " + Phrases.pressure(leak.atPa());
        if (leak.law() == Law.NONE) {
            return "No leak to be seen" + at + ": none above "
                    + Figures.significant(Figures.cm3PerMin(leak.upper95()), 2) + " cm³/min (95 %)";
        }
        return "Leak " + Phrases.rate(leak) + at + "  (95 %: " + Phrases.interval(leak.lower95(), leak.upper95()) + ")";
    }

    private static String verdict(HoldTestResult result) {
        List<String> parts = new ArrayList<>();
        result.verdict().ifPresent(verdict -> parts.add(Phrases.outcome(verdict)));
        result.leak().filter(leak -> leak.law() != Law.NONE).ifPresent(leak -> parts.add(Phrases.law(leak.law())));
        if (result.leak().isEmpty()) {
            return "Neither the hold nor a plateau could be used";
        }
        return parts.isEmpty() ? "No limit was given" : String.join("  ·  ", parts);
    }
}
