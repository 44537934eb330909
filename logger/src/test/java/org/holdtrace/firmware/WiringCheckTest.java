package org.holdtrace.firmware;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import org.holdtrace.adc.AdcException;
import org.holdtrace.adc.CalibrationStore;
import org.holdtrace.adc.Converter;
import org.holdtrace.adc.StoredCalibration;
import org.holdtrace.adc.StoredCalibration.Check;
import org.holdtrace.adc.model.SimulatedClock;
import org.holdtrace.adc.model.SimulatedConverter;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class WiringCheckTest {
    @TempDir
    Path root;

    private final SimulatedClock clock = new SimulatedClock(0);
    private final double[] volts = {0.5, 5.02, 0, 0};
    private final ByteArrayOutputStream out = new ByteArrayOutputStream();
    private Configuration configuration;
    private SimulatedConverter converter;
    private boolean passed;

    @BeforeEach
    void wire() throws IOException {
        Files.createDirectories(root.resolve("dev"));
        Files.createFile(root.resolve("dev/i2c-1"));
        Files.createFile(root.resolve("dev/gpiochip0"));
        String json = "{ \"inputs\": [ { \"to\": \"250 bar\" } ],"
                + " \"storage\": { \"state\": \"" + root.resolve("state") + "\", \"warnBelowMegabytes\": 1,"
                + " \"stopBelowMegabytes\": 1 } }";
        configuration = Configuration.parse(json.getBytes(StandardCharsets.UTF_8), "logger.json");
        converter = new SimulatedConverter(configuration.inputs(), 250, 5, (pin, timeNs) -> volts[pin], clock);
    }

    private List<String> check(WiringCheck.Opener opener, WiringCheck.PanelTrial panel) {
        WiringCheck check = new WiringCheck(configuration, root, new PrintStream(out, true, StandardCharsets.UTF_8));
        passed = check.all(false, clock, opener, panel);
        return out.toString(StandardCharsets.UTF_8).lines().toList();
    }

    private List<String> check() {
        return check(converter::converter, said -> {});
    }

    private static boolean has(List<String> lines, String verdict, String text) {
        return lines.stream().anyMatch(line -> line.startsWith(verdict) && line.contains(text));
    }

    @Test
    void aWholeWiringIsToldPartByPart() {
        List<String> lines = check();
        assertTrue(passed, lines.toString());
        assertEquals("ok       bus        /dev/i2c-1", lines.get(0));
        assertEquals("ok       converter  ADS1115 at 0x48 on a simulated bus answers as it should", lines.get(1));
        // 0.5 V at 5.02 V of supply is 10.0 - 0.04 % of it: 0.04/80 of 250 bar below zero.
        assertEquals(
                "ok       input      pressure -0.12 bar, scatter 0.000 (10.0 % of its supply; name plate, never checked)",
                lines.get(2));
        assertEquals("ok       input      supply 5.020 V", lines.get(3));
        assertEquals("Nothing is missing.", lines.get(lines.size() - 1));
    }

    @Test
    void aCalibrationIsNamedByItsDate() throws IOException {
        new CalibrationStore(root.resolve("state"))
                .put(
                        "pressure",
                        StoredCalibration.through(
                                List.of(new Check(0.1, 0), new Check(0.9, 25e6)),
                                Optional.empty(),
                                Optional.of(LocalDate.of(2026, 11, 25))));
        assertTrue(has(check(), "ok", "calibrated 2026-11-25"));
    }

    @Test
    void aBusThatIsNotThereIsNamedWithTheSwitchThatIsOff() throws IOException {
        Files.delete(root.resolve("dev/i2c-1"));
        List<String> lines = check(
                () -> {
                    throw new AdcException("what a library says of a bus that is not there");
                },
                said -> {});
        assertFalse(passed);
        assertTrue(has(lines, "MISSING", "no /dev/i2c-1. Switch the bus on"), lines.toString());
        assertEquals(
                "MISSING  converter  ADS1115 at 0x48 on i2c-1 was not asked: its bus cannot be used", lines.get(1));
        assertEquals("2 missing; the first is often the cause of others.", lines.get(lines.size() - 1));
    }

    @Test
    void aConverterThatDoesNotAnswerIsMissing() {
        converter.chip().unplug(true);
        assertTrue(has(check(), "MISSING", "no acknowledge"));
        assertFalse(passed);
    }

    @Test
    void aBrokenWireIsNamedWithItsPin() {
        volts[0] = 0.1;
        assertTrue(has(check(), "MISSING", "pressure: wire broken or shorted, or transducer without supply: 2.0 % of"));
        assertFalse(passed);
    }

    @Test
    void aSupplyThatIsLowIsNamed() {
        volts[1] = 4.3;
        volts[0] = 0.43;
        assertTrue(has(check(), "MISSING", "supply: too low: 4.300 V, expected at least 4.750 V"));
    }

    @Test
    void aConverterThatHangsIsNamed() throws AdcException {
        volts[0] = 2.5;
        Converter adc = converter.converter();
        Converter hangs = new Hanging(adc, converter);
        List<String> lines = check(() -> hangs, said -> {});
        assertTrue(has(lines, "MISSING", "pressure: the converter hangs at code"), lines.toString());
    }

    @Test
    void anAbsentPanelIsADoubtAndNoFault() {
        List<String> lines = check(converter::converter, said -> said.add("panel: no beeper at GPIO 24: in use"));
        assertTrue(has(lines, "doubt", "no beeper at GPIO 24"));
        assertTrue(passed);
    }

    @Test
    void aComputerWithoutPinsIsToldSoInOneLine() throws IOException {
        Files.delete(root.resolve("dev/gpiochip0"));
        List<String> lines = check(converter::converter, said -> said.add("what a library says of pins"));
        assertEquals(
                List.of(
                        "doubt    panel      no lamps, no beeper, no button: this computer has no GPIO (no /dev/gpiochip…)"),
                lines.stream().filter(line -> line.contains("panel")).toList());
        assertTrue(passed);
    }

    /** Hangs from the first reading of its second input on: the check reads the supply before. */
    private record Hanging(Converter adc, SimulatedConverter chip) implements Converter {
        @Override
        public String name() {
            return adc.name();
        }

        @Override
        public int inputs() {
            return adc.inputs();
        }

        @Override
        public int read(int input) throws AdcException {
            int count = adc.read(input);
            chip.chip().hang(input == 0);
            return count;
        }

        @Override
        public boolean follows(int input, int count) throws AdcException {
            return adc.follows(input, count);
        }

        @Override
        public double voltsPerCount(int input) {
            return adc.voltsPerCount(input);
        }

        @Override
        public int lowestCount(int input) {
            return adc.lowestCount(input);
        }

        @Override
        public int highestCount(int input) {
            return adc.highestCount(input);
        }

        @Override
        public void restart() throws AdcException {
            adc.restart();
        }

        @Override
        public void close() {
            adc.close();
        }
    }
}
