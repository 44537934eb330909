package org.holdtrace.session;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;

class CalibrationTest {
    /** EL-01: 16-bit converter at ±4.096 V, LSB = FSR/32768 = 125 µV; ranges [verified] driver headers, LSB calc. */
    private static final double LSB_V = 4.096 / 32_768;

    private static final double BAR = 1e5;

    private static double countOf(double volts) {
        return Math.rint(volts / LSB_V);
    }

    private static double bar(Calibration calibration, double volts) {
        return calibration.siValue((int) countOf(volts)) / BAR;
    }

    @Test
    void countsBecomeVoltsByTheConverterScale() {
        Calibration volts = Calibration.line(LSB_V, new Calibration.Point(0, 0), new Calibration.Point(1, 1));
        // EL-01: code 16000 at ±4.096 V = 2.000 V; 0x7FFF = 4.095875 V; 0x8000 = −4.096 V
        assertEquals(2.000, volts.siValue(16_000), 1e-12);
        assertEquals(4.095875, volts.siValue(0x7FFF), 1e-12);
        assertEquals(-4.096, volts.siValue((short) 0x8000), 1e-12);
        assertEquals(125e-6, volts.perCount(), 1e-18);
    }

    @Test
    void aCurrentLoopAcrossAShuntReadsAsItShould() {
        // EL-04: FS 400 bar: 4 mA 0, 8 mA 100, 12 mA 200 bar; 250 Ω: 1 to 5 V; 150 Ω: 0.6 to 3.0 V [calc]
        Calibration loop250 = Calibration.line(LSB_V, new Calibration.Point(1, 0), new Calibration.Point(5, 400 * BAR));
        assertEquals(0, bar(loop250, 0.004 * 250), 0.007);
        assertEquals(100, bar(loop250, 0.008 * 250), 0.007);
        assertEquals(200, bar(loop250, 0.012 * 250), 0.007);
        Calibration loop150 =
                Calibration.line(LSB_V, new Calibration.Point(0.6, 0), new Calibration.Point(3.0, 400 * BAR));
        assertEquals(400, bar(loop150, 0.020 * 150), 0.011);
    }

    @Test
    void aVoltageTransducerReadsAsItShould() {
        // EL-06: 0.5 to 4.5 V, FS 400: 1.700 V is 120.0 bar [memory] calc; EL-07: 125 µV is 0.0125 bar [calc]
        Calibration transducer =
                Calibration.line(LSB_V, new Calibration.Point(0.5, 0), new Calibration.Point(4.5, 400 * BAR));
        assertEquals(120.0, bar(transducer, 1.700), 0.00625);
        assertEquals(0.0125, transducer.perCount() / BAR, 1e-12);
    }

    @Test
    void aConverterOffsetIsTakenOff() {
        Calibration shifted = new Calibration(
                0.001,
                0.5,
                new Calibration.Point(0.5, 0),
                new Calibration.Point(4.5, 400 * BAR),
                List.of(),
                Optional.empty(),
                Optional.empty());
        assertEquals(0, shifted.siValue(0), 1e-9);
        assertEquals(100 * BAR, shifted.siValue(1000), 1e-6);
    }

    @Test
    void aLineThatIsNoneIsRefused() {
        Calibration.Point point = new Calibration.Point(1, 0);
        assertThrows(IllegalArgumentException.class, () -> Calibration.line(LSB_V, point, new Calibration.Point(1, 5)));
        assertThrows(
                IllegalArgumentException.class,
                () -> Calibration.line(LSB_V, point, new Calibration.Point(2, Double.NaN)));
        assertThrows(
                IllegalArgumentException.class,
                () -> Calibration.line(LSB_V, point, new Calibration.Point(Double.NaN, 1)));
        assertThrows(IllegalArgumentException.class, () -> Calibration.line(0, point, new Calibration.Point(2, 5)));
    }
}
