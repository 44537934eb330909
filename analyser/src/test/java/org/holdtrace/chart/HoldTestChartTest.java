package org.holdtrace.chart;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.holdtrace.testdata.InventedTests;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

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
}
