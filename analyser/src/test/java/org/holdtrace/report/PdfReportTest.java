package org.holdtrace.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.color.ICC_ColorSpace;
import java.awt.color.ICC_Profile;
import java.io.IOException;
import java.io.StringReader;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import javax.xml.parsers.DocumentBuilderFactory;
import javax.xml.parsers.ParserConfigurationException;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.pdmodel.PDResources;
import org.apache.pdfbox.pdmodel.common.PDRectangle;
import org.apache.pdfbox.pdmodel.font.PDFont;
import org.apache.pdfbox.pdmodel.graphics.PDXObject;
import org.apache.pdfbox.pdmodel.graphics.color.PDOutputIntent;
import org.apache.pdfbox.pdmodel.graphics.form.PDFormXObject;
import org.apache.pdfbox.text.PDFTextStripper;
import org.apache.xmpbox.XMPMetadata;
import org.apache.xmpbox.type.BadFieldValueException;
import org.apache.xmpbox.xml.DomXmpParser;
import org.apache.xmpbox.xml.XmpParsingException;
import org.holdtrace.estimate.EstimateOptions;
import org.holdtrace.testdata.InventedTests;
import org.holdtrace.wording.ShownUnits;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.w3c.dom.Document;
import org.w3c.dom.NodeList;
import org.xml.sax.InputSource;
import org.xml.sax.SAXException;

/** What ISO 19005-2 (PDF/A-2), level B, asks for, as far as it can be read out of the file with PDFBox. */
class PdfReportTest {
    private static final String NO_SUM = "0123456789abcdef".repeat(4);

    private static Report report(Paper paper, ShownUnits units, InventedTests.Case... cases) {
        List<Examined> recordings = new ArrayList<>();
        for (InventedTests.Case test : cases) {
            recordings.add(new Examined(
                    new FileProof(test.name(), 1234, NO_SUM),
                    List.of(),
                    Optional.empty(),
                    true,
                    test.trace(),
                    test.setup(),
                    List.of(test.result()),
                    List.of("column \"flow\" was not used")));
        }
        return new Report(
                recordings,
                Optional.empty(),
                List.of(new Unusable("lost.csv", Optional.of(NO_SUM), "line 3: \"x\"; expected a number")),
                List.of(),
                EstimateOptions.none(),
                paper,
                units,
                "Holdtrace 0");
    }

    /** A report on all invented tests. */
    static Report whole(Paper paper) {
        return report(paper, ShownUnits.METRIC, InventedTests.all().toArray(InventedTests.Case[]::new));
    }

    private static PDDocument pdf(Report report) throws IOException {
        return Loader.loadPDF(PdfReport.write(report));
    }

    @Test
    void itSaysInItsMetadataThatItIsPdfA2B() throws IOException, XmpParsingException, BadFieldValueException {
        try (PDDocument document = pdf(whole(Paper.A4))) {
            XMPMetadata xmp = new DomXmpParser()
                    .parse(document.getDocumentCatalog().getMetadata().exportXMPMetadata());
            assertEquals(2, xmp.getPDFAIdentificationSchema().getPart());
            assertEquals("B", xmp.getPDFAIdentificationSchema().getConformance());
            assertEquals(
                    document.getDocumentInformation().getProducer(),
                    xmp.getAdobePDFSchema().getProducer());
            assertEquals(
                    document.getDocumentInformation().getTitle(),
                    xmp.getDublinCoreSchema().getTitle());
            assertNull(document.getDocumentInformation().getCreationDate());
            assertNull(
                    xmp.getXMPBasicSchema() == null
                            ? null
                            : xmp.getXMPBasicSchema().getCreateDate());
        }
    }

    @Test
    void itsColoursAreThoseOfTheProfileInIt() throws IOException {
        try (PDDocument document = pdf(whole(Paper.A4))) {
            List<PDOutputIntent> intents = document.getDocumentCatalog().getOutputIntents();
            assertEquals(1, intents.size());
            ICC_Profile profile =
                    ICC_Profile.getInstance(intents.get(0).getDestOutputIntent().createInputStream());
            assertEquals(3, profile.getNumComponents());
            // IEC 61966-2-1: sRGB. Java's own sRGB says what each corner and a middle grey look like.
            ICC_ColorSpace ours = new ICC_ColorSpace(profile);
            for (float[] rgb : new float[][] {{1, 0, 0}, {0, 1, 0}, {0, 0, 1}, {0.5f, 0.5f, 0.5f}, {1, 1, 1}}) {
                float[] standard = ours.toRGB(rgb);
                for (int i = 0; i < 3; i++) {
                    assertEquals(rgb[i], standard[i], 0.02, "channel " + i);
                }
            }
        }
    }

    @Test
    void everyFontIsInItAndNothingIsARaster() throws IOException {
        try (PDDocument document = pdf(whole(Paper.A4))) {
            Set<String> fonts = new HashSet<>();
            for (PDPage page : document.getPages()) {
                look(page.getResources(), fonts);
                assertTrue(page.getAnnotations().isEmpty());
            }
            assertEquals(2, fonts.size(), fonts.toString());
        }
    }

    private static void look(PDResources resources, Set<String> fonts) throws IOException {
        for (COSName name : resources.getFontNames()) {
            PDFont font = resources.getFont(name);
            assertTrue(font.isEmbedded(), font.getName());
            fonts.add(font.getName());
        }
        for (COSName name : resources.getXObjectNames()) {
            PDXObject object = resources.getXObject(name);
            look(assertInstanceOf(PDFormXObject.class, object).getResources(), fonts);
        }
    }

    @Test
    void itHasAnIdentifierAndNothingThatActsOrHides() throws IOException {
        try (PDDocument document = pdf(whole(Paper.A4))) {
            assertFalse(document.isEncrypted());
            assertNotNull(document.getDocument().getTrailer().getDictionaryObject(COSName.ID));
            assertNull(document.getDocumentCatalog().getOpenAction());
            assertNull(document.getDocumentCatalog().getActions().getWP());
            assertNull(document.getDocumentCatalog().getAcroForm());
            assertNull(document.getDocumentCatalog().getNames());
        }
    }

    @ParameterizedTest
    @EnumSource(Paper.class)
    void nothingOfThePageIsLostOnPaper(Paper paper) throws IOException, ParserConfigurationException, SAXException {
        Report report = whole(paper);
        try (PDDocument document = pdf(report)) {
            PDRectangle size = paper == Paper.A4 ? PDRectangle.A4 : PDRectangle.LETTER;
            assertEquals(size.getWidth(), document.getPage(0).getMediaBox().getWidth(), 0.5);
            assertEquals(size.getHeight(), document.getPage(0).getMediaBox().getHeight(), 0.5);
            PDFTextStripper asWritten = new PDFTextStripper();
            String printed = squeezed(asWritten.getText(document));
            PDFTextStripper byPlace = new PDFTextStripper();
            byPlace.setSortByPosition(true);
            String placed = squeezed(byPlace.getText(document));
            for (String words : leaves(HtmlReport.write(report))) {
                String whole = squeezed(words);
                assertTrue(printed.contains(whole) || placed.contains(whole), words);
            }
            assertTrue(printed.contains(squeezed("page 1 of " + document.getNumberOfPages())));
        }
    }

    private static String squeezed(String words) {
        return words.replaceAll("[\\s\u00a0]+", "");
    }

    /** The text of each cell, item, heading and paragraph. */
    private static List<String> leaves(String html) throws IOException, ParserConfigurationException, SAXException {
        Document page = DocumentBuilderFactory.newInstance()
                .newDocumentBuilder()
                .parse(new InputSource(new StringReader(html.replace("<!DOCTYPE html>", ""))));
        List<String> leaves = new ArrayList<>();
        for (String element : List.of("h1", "h2", "h3", "p", "li", "th", "td")) {
            NodeList found = page.getElementsByTagName(element);
            for (int i = 0; i < found.getLength(); i++) {
                leaves.add(found.item(i).getTextContent());
            }
        }
        assertTrue(leaves.size() > 200, "only " + leaves.size());
        return leaves;
    }

    @Test
    void aSingleTestFitsItsResultAndSignaturesOnTheFirstPage() throws IOException {
        try (PDDocument document = pdf(report(Paper.LETTER, ShownUnits.parse("psi, in3"), InventedTests.wornPort()))) {
            PDFTextStripper first = new PDFTextStripper();
            first.setEndPage(1);
            String printed = first.getText(document);
            assertTrue(printed.contains("OVER THE LIMIT"), printed);
            assertTrue(printed.contains("Received by"), printed);
            assertEquals(4, document.getNumberOfPages());
        }
    }
}
