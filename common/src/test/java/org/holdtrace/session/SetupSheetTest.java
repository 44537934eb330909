package org.holdtrace.session;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import org.junit.jupiter.api.Test;

class SetupSheetTest {
    @Test
    void aChangedFieldLeavesAllOthersAsTheyWereWritten() throws InputException {
        SetupSheet sheet = sheet("{\"port\":\"A\",\"trappedVolume\":\"48 cm3 ± 10 %\","
                + "\"ours\":{\"n\":1.50,\"list\":[true,null,\"x\"]},\"oil\":{\"air\":\"0.5 %\"}}");
        SetupSheet next = sheet.with(SetupField.PORT, " B ").with(SetupField.OIL_GRADE, "ISO VG 46");
        assertEquals("""
                {
                  "port" : "B",
                  "trappedVolume" : "48 cm3 ± 10 %",
                  "ours" : {
                    "n" : 1.50,
                    "list" : [ true, null, "x" ]
                  },
                  "oil" : {
                    "air" : "0.5 %",
                    "grade" : "ISO VG 46"
                  }
                }
                """, new String(next.json(), StandardCharsets.UTF_8));
    }

    @Test
    void aBlankTextTakesTheFieldAwayAndWithTheLastOneItsGroup() throws InputException {
        SetupSheet sheet = sheet("{\"oil\":{\"air\":\"0.5 %\"},\"port\":\"A\"}").with(SetupField.AIR, " ");
        assertEquals(sheet("{\"port\":\"A\"}"), sheet);
        assertEquals("", sheet.text(SetupField.AIR));
    }

    @Test
    void whatIsWrongIsSaidInWords() {
        assertEquals(Optional.empty(), SetupSheet.problem(SetupField.TRAPPED_VOLUME, "48 ± 5 cm3"));
        assertEquals(Optional.empty(), SetupSheet.problem(SetupField.TRAPPED_VOLUME, ""));
        assertEquals(
                Optional.of("\"48\": no unit; expected a unit of volume: cm3, ml, l, mm3, m3, in3 or gal,"
                        + " as in \"48 ± 5 cm3\""),
                SetupSheet.problem(SetupField.TRAPPED_VOLUME, "48"));
    }

    @Test
    void whatIsRightMakesTheSetupAndWhatIsWrongIsLeftOut() throws InputException {
        TestSetup setup = sheet("{\"port\":\"A\",\"limit\":\"15 cmm/min\",\"pumpStroke\":\"0.45 cm3\"}")
                .setup();
        assertEquals(Optional.of("A"), setup.port());
        assertEquals(Optional.empty(), setup.limitM3PerS());
        assertEquals(0.45e-6, setup.pumpStrokeM3().orElseThrow().value(), 1e-15);
    }

    @Test
    void everySetupOfTheDemoDataIsTheSameOnASheet() throws Exception {
        try (var files = Files.newDirectoryStream(Path.of("..", "demo-data"), "*.setup.json")) {
            for (Path file : files) {
                TestSetup read = SetupReader.read(file);
                assertEquals(
                        read,
                        SetupSheet.parse(Files.readAllBytes(file), file.toString())
                                .setup());
                assertEquals(read, SetupSheet.of(read).setup());
            }
        }
    }

    @Test
    void aFileThatIsNoJsonIsRefusedWithItsLine() {
        InputException refused = assertThrows(InputException.class, () -> sheet("{\"port\": }"));
        assertEquals(true, refused.getMessage().startsWith("setup, line 1"), refused.getMessage());
        assertThrows(InputException.class, () -> sheet("[]"));
    }

    private static SetupSheet sheet(String json) throws InputException {
        return SetupSheet.parse(json.getBytes(StandardCharsets.UTF_8), "setup");
    }
}
