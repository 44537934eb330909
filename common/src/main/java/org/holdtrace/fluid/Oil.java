package org.holdtrace.fluid;

import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import org.holdtrace.quantity.Quantity;
import org.holdtrace.quantity.Require;

/**
 * A mineral hydraulic oil as far as a hold test needs it. Temperatures in K, valid from about -10 to 100 °C; pressures
 * in Pa, gauge.
 */
public final class Oil {
    /** 0 °C in K. */
    public static final double ZERO_CELSIUS_K = 273.15;

    /** Atmospheric pressure, Pa (standard atmosphere, exact by definition). */
    public static final double ATMOSPHERE_PA = 101_325;

    /** Viscosity index assumed where only the grade is known: what plain mineral hydraulic oil has, common practice. */
    public static final double USUAL_VISCOSITY_INDEX = 100;

    /** Density at 15 °C assumed where only the grade is known, kg/m³: VG 32 to 68 lie at 860 to 885, common practice. */
    public static final double USUAL_DENSITY_KG_PER_M3 = 870;

    /** Specific heat assumed, J/(kg K): mineral oil has 1850 to 2000 around room temperature, common practice. */
    public static final double USUAL_SPECIFIC_HEAT_J_PER_KG_K = 1900;

    /** Heat conductivity assumed, W/(m K): mineral oil has 0.12 to 0.14, common practice. */
    public static final double USUAL_CONDUCTIVITY_W_PER_M_K = 0.13;

    /** Letters a grade's number may follow: VG, or a class of hydraulic oil by ISO 6743-4 or DIN 51524. */
    private static final Set<String> GRADE_LETTERS = Set.of("VG", "HLP", "HVLP", "HM", "HV", "HL", "HH");

    private final double viscosityAt40M2PerS;
    private final Walther walther;
    private final LubricantDensity density;
    private final double specificHeatJPerKgK;

    /**
     * @param viscosityAt40M2PerS kinematic viscosity at 40 °C, m²/s (46 mm²/s is 46e-6)
     * @param viscosityIndex viscosity index by ASTM D2270
     * @param densityAt15KgPerM3 density at 15 °C, kg/m³
     * @param specificHeatJPerKgK specific heat, J/(kg K)
     */
    public Oil(
            double viscosityAt40M2PerS, double viscosityIndex, double densityAt15KgPerM3, double specificHeatJPerKgK) {
        this.viscosityAt40M2PerS = viscosityAt40M2PerS;
        double atHundred = ViscosityIndex.viscosityAtHundred(viscosityAt40M2PerS * 1e6, viscosityIndex) * 1e-6;
        walther = Walther.through(viscosityAt40M2PerS, ZERO_CELSIUS_K + 40, atHundred, ZERO_CELSIUS_K + 100);
        density = new LubricantDensity(densityAt15KgPerM3);
        this.specificHeatJPerKgK = Require.positive(specificHeatJPerKgK, "specific heat", "J/(kg K)");
    }

    /** An oil of this viscosity at 40 °C (m²/s) that is usual in everything else. */
    public static Oil ofViscosityAt40(double m2PerS) {
        return new Oil(m2PerS, USUAL_VISCOSITY_INDEX, USUAL_DENSITY_KG_PER_M3, USUAL_SPECIFIC_HEAT_J_PER_KG_K);
    }

    /**
     * The oil of a viscosity grade by ISO 3448, whose number is the viscosity at 40 °C in mm²/s (±10 %).
     *
     * @param grade "ISO VG 46", "VG46", "HLP 46" or "46"
     * @return empty where this is no such grade or its number is not between 10 and 1500
     */
    public static Optional<Oil> ofGrade(String grade) {
        // Read by hand: a regular expression would cost the start of a run more than the whole oil.
        String rest = grade.strip().toUpperCase(Locale.ROOT);
        if (rest.startsWith("ISO")) {
            rest = rest.substring("ISO".length()).stripLeading();
        }
        int letters = 0;
        while (letters < rest.length() && Character.isLetter(rest.charAt(letters))) {
            letters++;
        }
        if (letters > 0 && !GRADE_LETTERS.contains(rest.substring(0, letters))) {
            return Optional.empty();
        }
        int from = letters;
        while (from < rest.length() && (rest.charAt(from) == '-' || Character.isWhitespace(rest.charAt(from)))) {
            from++;
        }
        int number = number(rest, from);
        return number >= 10 && number <= 1500 ? Optional.of(ofViscosityAt40(number * 1e-6)) : Optional.empty();
    }

    /** The digits from {@code from} to the end as a number; -1 where there is anything else or more than four. */
    private static int number(String text, int from) {
        if (from == text.length() || text.length() - from > 4) {
            return -1;
        }
        int number = 0;
        for (int i = from; i < text.length(); i++) {
            char c = text.charAt(i);
            if (c < '0' || c > '9') {
                return -1;
            }
            number = 10 * number + (c - '0');
        }
        return number;
    }

    /** Kinematic viscosity at 40 °C, m²/s. */
    public double viscosityAt40M2PerS() {
        return viscosityAt40M2PerS;
    }

    /** Kinematic viscosity by ASTM D341, m²/s. */
    public double kinematicViscosityM2PerS(double temperatureK) {
        return walther.viscosityM2PerS(temperatureK);
    }

    /** Dynamic viscosity {@code v rho} at atmospheric pressure, Pa s. */
    public double dynamicViscosityPaS(double temperatureK) {
        return kinematicViscosityM2PerS(temperatureK) * densityKgPerM3(temperatureK);
    }

    /** Density at atmospheric pressure, kg/m³, see {@link LubricantDensity}. */
    public double densityKgPerM3(double temperatureK) {
        return density.atKgPerM3(temperatureK);
    }

    /** Thermal expansion (1/V) dV/dT, 1/K, see {@link LubricantDensity}. */
    public double expansionPerK(double temperatureK) {
        return density.expansionPerK(temperatureK);
    }

    /** Specific heat at constant pressure, J/(kg K). */
    public double specificHeatJPerKgK() {
        return specificHeatJPerKgK;
    }

    /**
     * Isothermal tangent modulus of the air-free oil at low pressure, Pa, from viscosity and temperature with 10 %
     * standard uncertainty, see {@link BulkModulus#isothermalSecantPa}. It rises with pressure by
     * {@link BulkModulus#TANGENT_SLOPE} Pa/Pa.
     */
    public Quantity isothermalModulusPa(double temperatureK) {
        double pascals = BulkModulus.isothermalSecantPa(kinematicViscosityM2PerS(ZERO_CELSIUS_K + 20), temperatureK, 0);
        return new Quantity(pascals, BulkModulus.ESTIMATE_RELATIVE_UNCERTAINTY * pascals);
    }

    /** Isothermal tangent modulus at a gauge pressure, Pa, from the one at low pressure (stated or estimated). */
    public static double tangentModulusPa(double atLowPressurePa, double pressurePa) {
        return tangentModulusPa(atLowPressurePa, BulkModulus.SECANT_SLOPE, pressurePa);
    }

    /** The same for an oil whose secant modulus rises by {@code secantSlope} Pa/Pa. */
    public static double tangentModulusPa(double atLowPressurePa, double secantSlope, double pressurePa) {
        return BulkModulus.tangentPa(atLowPressurePa + secantSlope * pressurePa, pressurePa, secantSlope);
    }

    /**
     * K_S/K_T of oil whose isothermal modulus is {@code isothermalPa}: how much stiffer fast compression finds it, 1.10
     * to 1.18 for mineral oil. See {@link BulkModulus#isentropicPa}.
     */
    public double isentropicRatio(double isothermalPa, double temperatureK) {
        return BulkModulus.isentropicPa(
                        isothermalPa,
                        expansionPerK(temperatureK),
                        temperatureK,
                        densityKgPerM3(temperatureK),
                        specificHeatJPerKgK)
                / isothermalPa;
    }

    /** Warming by fast compression, {@code a T / (rho c_p)}, K/Pa: about 1.3 K per 100 bar. */
    public double compressionHeatingKPerPa(double temperatureK) {
        return expansionPerK(temperatureK) * temperatureK / (densityKgPerM3(temperatureK) * specificHeatJPerKgK);
    }

    /** Temperature conductivity {@code k / (rho c_p)}, m²/s, with the usual heat conductivity of mineral oil. */
    public double diffusivityM2PerS(double temperatureK) {
        return USUAL_CONDUCTIVITY_W_PER_M_K / (densityKgPerM3(temperatureK) * specificHeatJPerKgK);
    }
}
