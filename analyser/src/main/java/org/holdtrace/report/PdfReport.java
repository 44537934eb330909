package org.holdtrace.report;

import com.openhtmltopdf.extend.OutputDevice;
import com.openhtmltopdf.outputdevice.helper.BaseRendererBuilder.FontStyle;
import com.openhtmltopdf.pdfboxout.PdfBoxRenderer;
import com.openhtmltopdf.pdfboxout.PdfRendererBuilder;
import com.openhtmltopdf.render.DefaultObjectDrawerFactory;
import com.openhtmltopdf.util.XRLog;
import java.awt.Graphics2D;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.util.HashMap;
import java.util.Map;
import java.util.regex.Pattern;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.common.PDMetadata;
import org.holdtrace.chart.Typeface;
import org.holdtrace.session.Sha256;

/** A report as PDF/A-2b (ISO 19005-2) with its fonts in it and its pictures as vectors. */
public final class PdfReport {
    private static final String DRAWING = "app/drawing";
    private static final int BOLD_WEIGHT = 700;
    private static final Pattern CREATED = Pattern.compile("\\s*<xmp:CreateDate>[^<]*</xmp:CreateDate>");

    private PdfReport() {}

    /** The document's bytes: the same for the same report, whenever and wherever it is made. */
    public static byte[] write(Report report) throws IOException {
        Map<String, Picture> pictures = new HashMap<>();
        String page = ReportPage.write(
                report,
                (markup, picture) -> {
                    pictures.put(picture.name(), picture);
                    int width = (int) (report.paper().textWidthMm() * picture.share());
                    double height = Math.floor((double) width * picture.height() / picture.width());
                    markup.open(
                            "object",
                            "type",
                            DRAWING,
                            "data",
                            picture.name(),
                            "style",
                            "display: block; width: " + width + "mm; height: " + height + "mm");
                    markup.close();
                },
                false);
        return write(page, pictures, report.version());
    }

    /** A page of XHTML and the pictures it names as a document. */
    static byte[] write(String page, Map<String, Picture> pictures, String version) throws IOException {
        XRLog.setLoggingEnabled(false);
        PdfRendererBuilder builder = new PdfRendererBuilder();
        builder.usePdfAConformance(PdfRendererBuilder.PdfAConformance.PDFA_2_B);
        builder.useColorProfile(resource("srgb.icc"));
        builder.withProducer(version);
        builder.useFont(() -> Typeface.open(Typeface.PLAIN), Typeface.FAMILY);
        builder.useFont(() -> Typeface.open(Typeface.BOLD), Typeface.FAMILY, BOLD_WEIGHT, FontStyle.NORMAL, true);
        builder.useObjectDrawerFactory(drawers(pictures));
        builder.withHtmlContent(page, null);
        try (PdfBoxRenderer renderer = builder.buildPdfRenderer()) {
            renderer.layout();
            renderer.createPDFWithoutClosing();
            PDDocument document = renderer.getPdfDocument();
            withoutClock(document, page);
            ByteArrayOutputStream bytes = new ByteArrayOutputStream();
            document.save(bytes);
            return bytes.toByteArray();
        }
    }

    private static DefaultObjectDrawerFactory drawers(Map<String, Picture> pictures) {
        DefaultObjectDrawerFactory drawers = new DefaultObjectDrawerFactory();
        drawers.registerDrawer(DRAWING, (element, x, y, width, height, device, context, dotsPerPixel) -> {
            draw(pictures.get(element.getAttribute("data")), device, x, y, width / dotsPerPixel, height / dotsPerPixel);
            return null;
        });
        return drawers;
    }

    private static void draw(Picture picture, OutputDevice device, double x, double y, double width, double height) {
        device.drawWithGraphics((float) x, (float) y, (float) width, (float) height, graphics -> {
            Graphics2D g = (Graphics2D) graphics.create();
            double scale = Math.min(width / picture.width(), height / picture.height());
            g.scale(scale, scale);
            picture.drawing().accept(g);
            g.dispose();
        });
    }

    /** Takes out what would differ between two runs: the time of day, and an identifier made from it. */
    private static void withoutClock(PDDocument document, String page) throws IOException {
        document.getDocumentInformation().getCOSObject().removeItem(COSName.CREATION_DATE);
        PDMetadata metadata = document.getDocumentCatalog().getMetadata();
        String xmp = new String(metadata.toByteArray(), StandardCharsets.UTF_8);
        metadata.importXMPMetadata(CREATED.matcher(xmp).replaceAll("").getBytes(StandardCharsets.UTF_8));
        byte[] digest = Sha256.begin().digest(page.getBytes(StandardCharsets.UTF_8));
        document.setDocumentId(ByteBuffer.wrap(digest).getLong());
    }

    private static byte[] resource(String name) throws IOException {
        try (InputStream in = PdfReport.class.getResourceAsStream(name)) {
            return in.readAllBytes();
        }
    }
}
