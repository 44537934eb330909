package org.holdtrace.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.verapdf.core.VeraPDFException;
import org.verapdf.gf.foundry.VeraGreenfieldFoundryProvider;
import org.verapdf.pdfa.Foundries;
import org.verapdf.pdfa.PDFAParser;
import org.verapdf.pdfa.PDFAValidator;
import org.verapdf.pdfa.flavours.PDFAFlavour;
import org.verapdf.pdfa.results.TestAssertion;
import org.verapdf.pdfa.results.ValidationResult;

/** Reports as PDF/A-2b (ISO 19005-2, level B), by veraPDF, which none of us wrote. */
class PdfAValidationTest {
    private static final int ENOUGH = 1000;

    @BeforeAll
    static void validator() {
        VeraGreenfieldFoundryProvider.initialise();
    }

    private static byte[] report(Paper paper) throws IOException {
        return PdfReport.write(PdfReportTest.whole(paper));
    }

    private static ValidationResult validated(byte[] pdf) throws IOException, VeraPDFException {
        try (PDFAParser parser =
                        Foundries.defaultInstance().createParser(new ByteArrayInputStream(pdf), PDFAFlavour.PDFA_2_B);
                PDFAValidator validator = Foundries.defaultInstance().createValidator(PDFAFlavour.PDFA_2_B, false)) {
            return validator.validate(parser);
        }
    }

    @ParameterizedTest
    @EnumSource(Paper.class)
    void aReportIsThePdfAItCallsItself(Paper paper) throws IOException, VeraPDFException {
        ValidationResult result = validated(report(paper));
        assertEquals(
                List.of(),
                result.getTestAssertions().stream()
                        .filter(each -> each.getStatus() == TestAssertion.Status.FAILED)
                        .map(each -> each.getRuleId().getClause() + ": " + each.getMessage())
                        .distinct()
                        .toList());
        assertTrue(result.isCompliant());
        assertTrue(result.getTotalAssertions() > ENOUGH, result.getTotalAssertions() + " assertions");
    }

    /** The check can fail: without what says which PDF/A it is, it is none (ISO 19005-2, 6.6.4). */
    @Test
    void aReportThatDoesNotSayWhichPdfAItIsIsRefused() throws IOException, VeraPDFException {
        String pdf = new String(report(Paper.A4), StandardCharsets.ISO_8859_1);
        String without = pdf.replace("pdfaid:part", "pdfaid:bart");
        assertEquals(pdf.length(), without.length());
        assertTrue(!pdf.equals(without), "the mark does not stand in the file as text");
        assertTrue(!validated(without.getBytes(StandardCharsets.ISO_8859_1)).isCompliant());
    }
}
