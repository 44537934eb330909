package org.holdtrace.adc;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import org.holdtrace.adc.StoredCalibration.Check;
import org.holdtrace.session.Calibration;
import org.holdtrace.session.ChannelKind;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class SensorInputTest {
    private static final double BAR = 1e5;
    private static final double STEP = 187.5e-6;

    private static SensorInput pressure(Signal signal, double divider) {
        return new SensorInput("pressure", ChannelKind.PRESSURE, 0, signal, divider, 0, 400 * BAR, true);
    }

    /** Reference value EL-06: p = (V/Vs − 0.1)/0.8 · 400 bar. */
    @ParameterizedTest
    @CsvSource({"5.000, 1.700, 120.0", "4.900, 1.666, 120.0", "5.000, 1.666, 116.6", "5, 0.5, 0", "5, 4.5, 400"})
    void aRatiometricSignalIsReadByTheSupplyOfTheDay(double supply, double volts, double bar) {
        SensorInput input = pressure(Signal.Ratiometric.common(), 1);
        Calibration calibration = input.calibration(STEP, supply, Optional.empty());
        assertEquals(bar * BAR, calibration.siValue(0) + volts / STEP * calibration.perCount(), 1);
    }

    /** Reference value EL-04: p = (I − 4)/16 · 400 bar; 150 Ω gives 0.6 to 3.0 V. */
    @ParameterizedTest
    @CsvSource({"4, 0, 0.6", "8, 100, 1.2", "12, 200, 1.8", "20, 400, 3.0"})
    void aCurrentIsReadAcrossItsShunt(double milliamps, double bar, double volts) {
        SensorInput input = pressure(new Signal.Current(150), 1);
        Calibration calibration = input.calibration(STEP, 5, Optional.empty());
        assertEquals(bar * BAR, calibration.siValue(0) + volts / STEP * calibration.perCount(), 1);
        assertEquals(volts, input.pinVolts(bar * BAR, 5), 1e-12);
        assertEquals(milliamps / 1000, input.signalSize(volts, 5), 1e-12);
    }

    @Test
    void aDividerScalesWhatThePinSees() {
        SensorInput input = pressure(new Signal.Voltage(0, 10), 0.3);
        assertEquals(3.0, input.pinVolts(400 * BAR, 5), 1e-12);
        Calibration calibration = input.calibration(125e-6, 5, Optional.empty());
        assertEquals(200 * BAR, calibration.siValue((int) Math.round(1.5 / 125e-6)), 1);
    }

    @Test
    void theConverterRangeCoversAllThatASignalCanMean() {
        // 4.75 V through 15 of 25 kΩ; 21 mA through 150 Ω.
        assertEquals(2.85, pressure(Signal.Ratiometric.common(), 0.6).highestPinVolts(5), 1e-9);
        assertEquals(3.15, pressure(new Signal.Current(150), 1).highestPinVolts(5), 1e-9);
    }

    /** IEC 60751: Pt100 is 100, 119.397, 138.506 Ω at 0, 50, 100 °C (from memory). */
    @ParameterizedTest
    @CsvSource({"0, 1000.0", "50, 1193.97", "100, 1385.06"})
    void thePlatinumCurveIsThatOfItsStandard(double celsius, double ohms) {
        assertEquals(ohms, Signal.Pt1000.ohms(celsius), 0.01);
    }

    @Test
    void aPlatinumResistorReadByAStraightLineIsOffByLessThanItsDocumentSays() {
        SensorInput oil = SensorInput.pt1000("oil", ChannelKind.OIL_TEMPERATURE, 2, 10_000);
        Calibration calibration = oil.calibration(31.25e-6, 5, Optional.empty());
        for (int celsius = 0; celsius <= 80; celsius += 5) {
            double ohms = Signal.Pt1000.ohms(celsius);
            double volts = 5 * ohms / (ohms + 10_000);
            double kelvins = calibration.siValue((int) Math.round(volts / 31.25e-6));
            assertEquals(273.15 + celsius, kelvins, 0.8, celsius + " degC");
        }
        assertEquals(283.15, calibration.siValue((int) Math.round(oil.pinVolts(283.15, 5) / 31.25e-6)), 0.05);
    }

    @Test
    void aCalibrationByTwoPointsHoldsAtAnotherSupplyToo() {
        SensorInput input = pressure(Signal.Ratiometric.common(), 1);
        StoredCalibration stored = StoredCalibration.through(
                List.of(new Check(0.502, 200.5 * BAR), new Check(0.102, 0), new Check(0.902, 400 * BAR)),
                Optional.of("dead-weight tester, invented"),
                Optional.of(LocalDate.of(2026, 11, 25)));
        for (double supply : new double[] {4.8, 5.0, 5.1}) {
            Calibration calibration = input.calibration(1e-6, supply, Optional.of(stored));
            assertEquals(0, calibration.siValue((int) Math.round(0.102e6 * supply)), 100);
            assertEquals(400 * BAR, calibration.siValue((int) Math.round(0.902e6 * supply)), 100);
            // The line reads 200 bar where the reference showed 200.5.
            assertEquals(-0.5 * BAR, calibration.residuals().get(1).offBy(), 1);
            assertEquals(200.5 * BAR, calibration.residuals().get(1).siValue(), 1);
            assertEquals(Optional.of("dead-weight tester, invented"), calibration.reference());
        }
    }

    @Test
    void aZeroShiftsTheLineAndLeavesItsSlope() {
        SensorInput input = pressure(Signal.Ratiometric.common(), 1);
        StoredCalibration zeroed = StoredCalibration.none().withZero(0.104, Optional.empty());
        Calibration before = input.calibration(1e-6, 5, Optional.empty());
        Calibration after = input.calibration(1e-6, 5, Optional.of(zeroed));
        assertEquals(0, after.siValue(520_000), 1e-3);
        assertEquals(before.perCount(), after.perCount(), 1e-9);
        // 0.004 of the supply is 0.5 % of the span: 2 bar.
        assertEquals(2 * BAR, before.siValue(520_000), 1);
    }

    @Test
    void whatNoTransducerCanBeIsRefusedWithAReason() {
        SensorInput input = pressure(Signal.Ratiometric.common(), 1);
        StoredCalibration zero = StoredCalibration.none().withZero(0.2, Optional.empty());
        IllegalArgumentException e = assertThrows(IllegalArgumentException.class, () -> input.plausible(zero));
        assertEquals(
                "input pressure: its zero would be off by 12.5 % of its span; expected within 5 %."
                        + " Is the line really without pressure?",
                e.getMessage());
        StoredCalibration wrongRange = StoredCalibration.through(
                List.of(new Check(0.1, 0), new Check(0.9, 250 * BAR)), Optional.empty(), Optional.empty());
        assertTrue(assertThrows(IllegalArgumentException.class, () -> input.plausible(wrongRange))
                .getMessage()
                .contains("0.625 times"));
        assertThrows(
                IllegalArgumentException.class,
                () -> StoredCalibration.through(
                        List.of(new Check(0.1, 0), new Check(0.1, BAR)), Optional.empty(), Optional.empty()));
        assertThrows(IllegalArgumentException.class, () -> new Check(Double.NaN, 0));
    }

    @Test
    void aSupplyThatCannotBeOneIsNotCalibratedBy() {
        assertEquals(4.9, SensorInput.believedSupplyVolts(4.9, 5));
        assertEquals(5, SensorInput.believedSupplyVolts(0.3, 5));
        assertEquals(5, SensorInput.believedSupplyVolts(Double.NaN, 5));
    }
}
