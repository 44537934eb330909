package org.holdtrace.fluid;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Map;
import org.junit.jupiter.api.Test;

class ViscosityTest {
    private static final double MM2 = 1e-6;

    @Test
    void twoPointsGiveTheViscosityAtAThird() {
        // VI-02, verified in a viscosity-temperature spreadsheet (there with 273), recomputed with 273.15.
        Walther w = Walther.through(32 * MM2, 313.15, 5.4 * MM2, 373.15);
        assertEquals(9.530815, w.a(), 5e-7);
        assertEquals(3.746578, w.b(), 5e-7);
        assertEquals(8.53321 * MM2, w.viscosityM2PerS(353.15), 5e-6 * MM2);
        assertEquals(86.2779 * MM2, w.viscosityM2PerS(293.15), 5e-5 * MM2);
        // VI-03, computed.
        Walther vg46 = Walther.through(46 * MM2, 313.15, 6.8 * MM2, 373.15);
        assertEquals(9.417993, vg46.a(), 5e-7);
        assertEquals(3.684442, vg46.b(), 6e-7);
        assertEquals(577.32 * MM2, vg46.viscosityM2PerS(273.15), 5e-3 * MM2);
        assertEquals(133.838 * MM2, vg46.viscosityM2PerS(293.15), 5e-4 * MM2);
        assertEquals(29.973 * MM2, vg46.viscosityM2PerS(323.15), 5e-4 * MM2);
        assertEquals(20.623 * MM2, vg46.viscosityM2PerS(333.15), 5e-4 * MM2);
        assertEquals(11.103 * MM2, vg46.viscosityM2PerS(353.15), 5e-4 * MM2);
    }

    @Test
    void thinLiquidsGoThroughTheirOwnPoints() {
        // VI-04: the low-viscosity term, verified form; a curve must go through the points it was made from.
        Walther w = Walther.through(1.5 * MM2, 293.15, 0.6 * MM2, 373.15);
        assertEquals(1.5 * MM2, w.viscosityM2PerS(293.15), 1e-12);
        assertEquals(0.6 * MM2, w.viscosityM2PerS(373.15), 1e-12);
    }

    @Test
    void viscosityIndexProceduresMatchTheStandardsExamples() {
        // VI-05 and VI-06: ASTM D2270 §5.1.4 and §6.1.4, verified in a copy; the second B example from memory.
        assertEquals(92.43, ViscosityIndex.procedureA(73.30, 119.94, 69.48), 0.005);
        assertEquals(156.37, ViscosityIndex.procedureB(22.83, 5.05, 28.97), 0.01); // the standard rounds N first
        assertEquals(111.31, ViscosityIndex.procedureB(53.47, 7.80, 57.31), 0.005);
    }

    @Test
    void theStandardsLAndHComeOutOfThePolynomials() {
        // L = 119.94 and H = 69.48 at 8.86 (VI-05), H = 28.97 at 5.05 and 57.31 at 7.80 (VI-06); the polynomials
        // approximate the table to a few hundredths.
        assertEquals(119.94, ViscosityIndex.l(8.86), 0.03);
        assertEquals(69.48, ViscosityIndex.h(8.86), 0.03);
        assertEquals(28.97, ViscosityIndex.h(5.05), 0.03);
        assertEquals(57.31, ViscosityIndex.h(7.80), 0.03);
        assertEquals(92, ViscosityIndex.of(73.30, 8.86), 0.5);
        assertEquals(156, ViscosityIndex.of(22.83, 5.05), 0.5);
        assertEquals(111, ViscosityIndex.of(53.47, 7.80), 0.5);
    }

    @Test
    void aboveSeventyTheStandardsOwnFormulaHolds() {
        // VI-07, verified (coefficients there rounded to four figures).
        for (double y : new double[] {75, 120, 300}) {
            assertEquals(0.8353 * y * y + 14.67 * y - 216, ViscosityIndex.l(y), 2e-4 * ViscosityIndex.l(y));
            assertEquals(0.1684 * y * y + 11.85 * y - 97, ViscosityIndex.h(y), 2e-4 * ViscosityIndex.h(y));
        }
    }

    @Test
    void thePiecesOfLAndHMeetAndRise() {
        // Their coefficients are from memory: a slip in one would show as a step.
        double step = 1e-9;
        for (double joint : new double[] {3.8, 4.4, 5, 6.4, 7, 7.7, 9, 12, 15, 18, 22, 28, 40, 55, 70}) {
            double l = ViscosityIndex.l(joint);
            double h = ViscosityIndex.h(joint);
            assertEquals(l, ViscosityIndex.l(joint - step), 3e-3 * l, "L at " + joint);
            assertEquals(h, ViscosityIndex.h(joint - step), 3e-3 * h, "H at " + joint);
        }
        for (double y = 2.06; y < 90; y += 0.05) {
            assertTrue(ViscosityIndex.l(y) > ViscosityIndex.l(y - 0.05));
            assertTrue(ViscosityIndex.h(y) > ViscosityIndex.h(y - 0.05));
            assertTrue(ViscosityIndex.l(y) > ViscosityIndex.h(y));
        }
    }

    @Test
    void gradesMeanTheirViscosityAtFortyDegrees() {
        // VI-01: ISO 3448 via two viscosity guides, verified; at 100 degC usual oils of index about 100 have 5.4
        // (VI-02)
        // and 6.8 mm2/s (VI-03).
        for (int grade : new int[] {22, 32, 46, 68, 100, 150}) {
            Oil oil = Oil.ofGrade("ISO VG " + grade).orElseThrow();
            assertEquals(grade * MM2, oil.kinematicViscosityM2PerS(313.15), 1e-10);
        }
        for (var known : Map.of("HLP 32", 5.4, "VG46", 6.8).entrySet()) {
            Oil oil = Oil.ofGrade(known.getKey()).orElseThrow();
            assertEquals(known.getValue() * MM2, oil.kinematicViscosityM2PerS(373.15), 0.02 * known.getValue() * MM2);
        }
        assertTrue(Oil.ofGrade("engine oil").isEmpty());
        assertTrue(Oil.ofGrade("ISO VG 5000").isEmpty());
    }

    @Test
    void anOilOfAnotherIndexHasThatIndex() {
        for (double index : new double[] {40, 95, 100, 140}) {
            double atHundred = ViscosityIndex.viscosityAtHundred(46, index);
            assertEquals(index, ViscosityIndex.of(46, atHundred), 1e-6);
        }
    }

    @Test
    void pressureThickensOil() {
        // VI-08 and VI-09: inputs verified in a tribology exercise, numbers computed.
        assertEquals(1.19363, PressureViscosity.barusPaS(1, 1.77e-8, 10e6), 5e-6);
        assertEquals(1.85800, PressureViscosity.barusPaS(1, 1.77e-8, 35e6), 5e-6);
        assertEquals(0.0488823, PressureViscosity.roelandsPaS(0.0393, 2.2e-8, 10e6), 5e-7);
        assertEquals(0.0831114, PressureViscosity.roelandsPaS(0.0393, 2.2e-8, 35e6), 5e-7);
        assertEquals(0.0848788, PressureViscosity.barusPaS(0.0393, 2.2e-8, 35e6), 5e-7);
    }

    @Test
    void dynamicViscosityIsKinematicTimesDensity() {
        // VI-10, computed with TH-01.
        assertEquals(0.0392943, Oil.ofGrade("46").orElseThrow().dynamicViscosityPaS(313.15), 5e-8);
    }

    @Test
    void viscosityNobodyHasIsRefused() {
        assertThrows(IllegalArgumentException.class, () -> Walther.through(Double.NaN, 313.15, 6.8 * MM2, 373.15));
        assertThrows(IllegalArgumentException.class, () -> new Oil(46, 100, 870, 1900)); // mm2/s given as m2/s
    }
}
