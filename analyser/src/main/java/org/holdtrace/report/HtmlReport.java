package org.holdtrace.report;

import org.holdtrace.chart.HoldTestChart;

/** A report as one page for a browser: no script, nothing fetched from elsewhere. */
public final class HtmlReport {
    private HtmlReport() {}

    /** The page, to be stored as UTF-8. */
    public static String write(Report report) {
        return ReportPage.write(report, HtmlReport::place, true);
    }

    private static void place(Markup page, Picture picture) {
        page.open("div", "class", "picture", "role", "img", "aria-label", picture.words());
        page.raw(HoldTestChart.document(picture.width(), picture.height(), picture.name(), picture.drawing()));
        page.close();
    }
}
