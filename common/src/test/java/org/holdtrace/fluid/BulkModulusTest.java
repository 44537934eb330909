package org.holdtrace.fluid;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import org.junit.jupiter.api.Test;

class BulkModulusTest {
    private static final double GPA = 1e9;

    @Test
    void tangentFollowsFromSecantExactly() {
        // BM-01, definitions verified in a trade article of 2000; number computed from the formula.
        assertEquals(1.6051 * GPA, BulkModulus.tangentPa(1.5057 * GPA, 20e6, 5.6), 0.00005 * GPA);
    }

    @Test
    void isothermalModulusFollowsFromIsentropic() {
        // BM-02, relation verified in a formula list citing Boelhouwer 1967; number computed.
        double isothermal = BulkModulus.isothermalPa(1.650 * GPA, 7.0e-4, 313.15, 870, 1900);
        assertEquals(1.43084 * GPA, isothermal, 0.000005 * GPA);
        assertEquals(1.15317, 1.650 * GPA / isothermal, 0.000005);
        assertEquals(1.650 * GPA, BulkModulus.isentropicPa(isothermal, 7.0e-4, 313.15, 870, 1900), 1);
    }

    @Test
    void densityGivesTheModulusOfPetroleumLiquids() {
        // BM-03, constants verified in a flow computer's density module; API MPMS 11.2.1M:1984 from memory.
        assertEquals(1.46734 * GPA, BulkModulus.petroleumLiquidPa(870, 288.15), 0.000005 * GPA);
        assertEquals(1.42556 * GPA, BulkModulus.petroleumLiquidPa(870, 293.15), 0.000005 * GPA);
        assertEquals(1.27001 * GPA, BulkModulus.petroleumLiquidPa(870, 313.15), 0.000005 * GPA);
        assertEquals(1.13143 * GPA, BulkModulus.petroleumLiquidPa(870, 333.15), 0.000005 * GPA);
        assertEquals(1.18964 * GPA, BulkModulus.petroleumLiquidPa(850, 313.15), 0.000005 * GPA);
        assertEquals(1.38964 * GPA, BulkModulus.petroleumLiquidPa(900, 313.15), 0.000005 * GPA);
    }

    @Test
    void viscosityGivesTheModulusOfHydraulicOil() {
        // BM-04, Hayward 1970 from memory, numbers computed; v = 46 mm2/s at 20 degC.
        double v = 46e-6;
        assertEquals(1.8194 * GPA, BulkModulus.isentropicSecantPa(v, 293.15, 0), 0.00005 * GPA);
        assertEquals(1.5494 * GPA, BulkModulus.isothermalSecantPa(v, 293.15, 0), 0.00005 * GPA);
        assertEquals(1.6290 * GPA, BulkModulus.isentropicSecantPa(v, 313.15, 0), 0.00005 * GPA);
        assertEquals(1.3937 * GPA, BulkModulus.isothermalSecantPa(v, 313.15, 0), 0.00005 * GPA);
        double isentropic = BulkModulus.isentropicSecantPa(v, 313.15, 20e6);
        double isothermal = BulkModulus.isothermalSecantPa(v, 313.15, 20e6);
        assertEquals(1.7410 * GPA, isentropic, 0.00005 * GPA);
        assertEquals(1.5057 * GPA, isothermal, 0.00005 * GPA);
        assertEquals(1.8394 * GPA, BulkModulus.tangentPa(isentropic, 20e6, 5.6), 0.00005 * GPA);
        assertEquals(1.6051 * GPA, BulkModulus.tangentPa(isothermal, 20e6, 5.6), 0.00006 * GPA);
        assertEquals(1.4586 * GPA, BulkModulus.isentropicSecantPa(v, 333.15, 0), 0.00005 * GPA);
        assertEquals(1.2536 * GPA, BulkModulus.isothermalSecantPa(v, 333.15, 0), 0.00005 * GPA);
    }

    @Test
    void ruleOfThumbLiesWithinTheEstimatesUncertainty() {
        // BM-05 (verified: about 0.5 % per 1000 psi) and BM-08 (verified: 1.5 GPa at 50 degC): slow and fast moduli of
        // a usual oil embrace them within the 10 % standard uncertainty stated, taken twice.
        Oil oil = Oil.ofGrade("ISO VG 46").orElseThrow();
        double isothermal = oil.isothermalModulusPa(323.15).value();
        assertEquals(1.37895 * GPA, isothermal, 0.2 * isothermal);
        assertEquals(1.5 * GPA, isothermal, 0.2 * isothermal);
        assertEquals(0.10 * isothermal, oil.isothermalModulusPa(323.15).standardUncertainty(), 1);
    }

    @Test
    void hotOilIsSofterAndPressedOilStiffer() {
        Oil oil = Oil.ofGrade("VG46").orElseThrow();
        double cold = oil.isothermalModulusPa(293.15).value();
        assertEquals(
                Math.pow(10, -0.0023 * 40), oil.isothermalModulusPa(333.15).value() / cold, 1e-9); // BM-04's exponent
        double step = 1e4;
        assertEquals(
                BulkModulus.TANGENT_SLOPE, (Oil.tangentModulusPa(cold, step) - cold) / step, 0.01); // 2 m - 1 at p = 0
    }

    @Test
    void theTwoWaysToTheIsentropicModulusAgree() {
        // BM-02 from BM-04's isothermal against BM-04's isentropic: two sources, within 4 %.
        Oil oil = Oil.ofGrade("ISO VG 46").orElseThrow();
        double v20 = oil.kinematicViscosityM2PerS(293.15);
        for (double kelvin : new double[] {293.15, 313.15, 333.15}) {
            double isothermal = oil.isothermalModulusPa(kelvin).value();
            double direct = BulkModulus.isentropicSecantPa(v20, kelvin, 0);
            assertEquals(direct, isothermal * oil.isentropicRatio(isothermal, kelvin), 0.04 * direct);
        }
    }

    @Test
    void notANumberIsRefused() {
        assertThrows(IllegalArgumentException.class, () -> BulkModulus.isothermalSecantPa(Double.NaN, 293.15, 0));
        assertThrows(IllegalArgumentException.class, () -> BulkModulus.tangentPa(1e9, Double.NaN, 5.6));
        assertThrows(IllegalArgumentException.class, () -> BulkModulus.isentropicPa(1e10, 7e-2, 300, 870, 1900));
    }
}
