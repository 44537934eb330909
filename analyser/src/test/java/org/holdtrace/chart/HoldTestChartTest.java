package org.holdtrace.chart;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.StringReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import javax.xml.parsers.DocumentBuilderFactory;
import javax.xml.parsers.ParserConfigurationException;
import org.holdtrace.testdata.InventedTests;
import org.holdtrace.wording.ShownUnits;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.w3c.dom.Element;
import org.xml.sax.InputSource;
import org.xml.sax.SAXException;

class HoldTestChartTest {
    private static final int LARGEST_BYTES = 200_000;

    static List<InventedTests.Case> cases() {
        return InventedTests.all();
    }

    private static String svg(InventedTests.Case test) {
        return HoldTestChart.svg(test.name(), test.trace(), test.setup(), test.result());
    }

    @ParameterizedTest
    @MethodSource("cases")
    void aPictureIsSmallAndTheSameEveryTime(InventedTests.Case test) throws IOException {
        String svg = svg(test);
        Path folder = Files.createDirectories(Path.of("target", "pictures"));
        Files.writeString(folder.resolve(test.name() + ".svg"), svg);
        assertTrue(svg.getBytes(StandardCharsets.UTF_8).length <= LARGEST_BYTES, "was " + svg.length());
        assertEquals(svg, svg(test));
    }

    @ParameterizedTest
    @MethodSource("cases")
    void aPictureIsWellFormedAndScales(InventedTests.Case test)
            throws ParserConfigurationException, SAXException, IOException {
        Element root = DocumentBuilderFactory.newInstance()
                .newDocumentBuilder()
                .parse(new InputSource(new StringReader(svg(test))))
                .getDocumentElement();
        assertEquals("svg", root.getTagName());
        assertFalse(root.getAttribute("viewBox").isEmpty());
    }

    @Test
    void theResultAndEveryPhaseStandThereInWords() {
        String svg = svg(InventedTests.wornPort());
        for (String words : List.of(
                "Loader 7, Bucket valve, port A",
                "Leak 26.4 cm³/min at 19.8 bar  (95 %: 24.6 to 28.3)",
                "OVER the limit of 15 cm³/min",
                "laminar, as through a clearance",
                "rest",
                "pump-up (26 strokes)",
                "plateau",
                "settling",
                "hold",
                "bleed-off",
                "the routes agree",
                "26.3 (23.6 to 29.0)",
                "Caution: Pressure stalled at 19.8 bar")) {
            assertTrue(svg.contains(words), words);
        }
    }

    @Test
    void thePanelsAloneCanBeInPsiAndCubicInches() throws IOException {
        InventedTests.Case test = InventedTests.wornPort();
        ShownUnits units = ShownUnits.parse("psi, in3");
        String svg = HoldTestChart.document(
                HoldTestChart.WIDTH,
                HoldTestChart.PANELS_HEIGHT,
                "x",
                g -> HoldTestChart.drawPanels(g, test.trace(), test.setup(), test.result(), units));
        Files.writeString(Files.createDirectories(Path.of("target", "pictures")).resolve("panels-psi.svg"), svg);
        assertTrue(svg.contains("pressure [psi]"));
        assertTrue(svg.contains("leak [in³/min]"));
        assertFalse(svg.contains("bar]"));
        assertFalse(svg.contains("cm³"));
    }

    @Test
    void noLeakIsSaidAsWhatCanBeExcluded() {
        String svg = svg(InventedTests.tightCylinder());
        assertTrue(svg.contains("No leak to be seen at 140 bar: none above 0.031 cm³/min (95 %)"));
        assertTrue(svg.contains("WITHIN the limit of 2 cm³/min"));
        assertTrue(svg.contains("limit 2 is far above"));
        assertTrue(svg.contains("(and 1 more)"));
    }

    @Test
    void aTestWithoutARateSaysSoInEveryPanel() {
        String svg = svg(InventedTests.noHold());
        assertTrue(svg.contains("No leak rate from this test"));
        assertTrue(svg.contains("There is no hold here that a curve"));
    }
}
