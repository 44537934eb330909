package org.holdtrace.rig;

import org.holdtrace.fluid.Oil;
import org.holdtrace.quantity.Require;

/**
 * The oil in the line as a volume balance, stepped through time. Pressure is not integrated but solved for in every step,
 * so that what was pumped, leaked, let off and stored always add up:
 *
 * <pre>(M + w) (1 - p/(K0 + m p)) (1 + a T) + A g(p)  =  V (1 + e Ts) + walls(p) + creep
 * w pumped less leaked, let off and gone back into the pump, M oil at the start, A air, all at atmospheric pressure;
 * g(p) = (p_a/(p_a + p))^(1/n); T warming of the oil, Ts of its surroundings</pre>
 *
 * <p>Heat modes and creep elements are stepped exactly for pressure that changes linearly within the step, leaks by the
 * trapezoidal rule: second order in the step. Where less oil is there than the line holds, the rest is a void at pressure
 * 0 that must be filled before pressure rises.
 */
final class LinePlant {
    private static final int MOST_ITERATIONS = 200;

    private final OilFill fill;
    private final Walls walls;
    private final Heat heat;
    private Leaks leaks;
    private final double oilM3;
    private final double airM3;
    private final double airExponent;

    private final double[] warmingK;
    private final double[] warmingBase;
    private final double[] creepTimesS;
    private final double[] creepM3;
    private double[] heatDecay = new double[0];
    private double[] heatMean = new double[0];
    private double[] creepDecay = new double[0];
    private double[] creepMean = new double[0];
    private double coefficientsForS = Double.NaN;

    private double timeS;
    private double pressurePa;
    private double slopePaPerS;
    private double surroundingsK;
    private double extraM3;
    private double voidM3;
    private double undissolvedM3;
    private double pumpedM3;
    private double leakedM3;
    private double bledM3;
    private double returnM3PerSPa;
    private double returnedM3;

    // Of the step under way: base values that do not depend on the pressure at its end.
    private double baseWarmingK;
    private double warmingSlope;
    private double baseCreepM3;
    private double creepShare;
    private double nextSurroundingsK;
    private double nextUndissolvedM3;

    LinePlant(OilFill fill, Walls walls, Heat heat, Leaks leaks) {
        this.fill = fill;
        this.walls = walls;
        this.heat = heat;
        this.leaks = leaks;
        airM3 = fill.air().fraction() * fill.volumeM3();
        oilM3 = fill.volumeM3() - airM3;
        airExponent = 1 / fill.air().polytropicIndex();
        undissolvedM3 = airM3;
        warmingK = new double[heat.modes().size()];
        warmingBase = new double[warmingK.length];
        creepTimesS = walls.creepTimesS();
        creepM3 = new double[creepTimesS.length];
    }

    double timeS() {
        return timeS;
    }

    /** From now on oil is lost here instead. */
    void setLeaks(Leaks other) {
        leaks = other;
    }

    /** True gauge pressure, Pa. */
    double pressurePa() {
        return pressurePa;
    }

    /** Oil pumped in so far, as volume at atmospheric pressure, m³. */
    double pumpedM3() {
        return pumpedM3;
    }

    /** Oil leaked so far, likewise, m³. */
    double leakedM3() {
        return leakedM3;
    }

    /** Oil let off so far, likewise, m³. */
    double bledM3() {
        return bledM3;
    }

    /** Oil that went back into the pump so far, likewise, m³. */
    double returnedM3() {
        return returnedM3;
    }

    /** From now on oil goes back into the pump at this rate per pressure, m³/(s Pa). */
    void setReturn(double m3PerSPa) {
        returnM3PerSPa = m3PerSPa;
    }

    /** Volume still to be filled before pressure rises, m³. */
    double voidM3() {
        return voidM3;
    }

    /** Air not dissolved, as volume at atmospheric pressure, m³. */
    double undissolvedM3() {
        return undissolvedM3;
    }

    /** Temperature of the oil, K. */
    double oilTemperatureK() {
        return fill.temperatureK() + warming();
    }

    /** Temperature of the surroundings, K. */
    double surroundingsTemperatureK() {
        return fill.temperatureK() + surroundingsK;
    }

    /** Lets this volume of oil drain out, to be filled by the next strokes. */
    void drain(double volumeM3) {
        Require.notNegative(volumeM3, "drained volume", "m3");
        extraM3 -= volumeM3;
        voidM3 += volumeM3;
        bledM3 += volumeM3;
    }

    private double warming() {
        if (warmingK.length == 0) {
            return surroundingsK;
        }
        double sum = 0;
        for (int i = 0; i < warmingK.length; i++) {
            sum += heat.modes().get(i).weight() * warmingK[i];
        }
        return sum;
    }

    /**
     * One step.
     *
     * @param stepS its length, s
     * @param offeredM3 what the pump pushes in it, m³ at atmospheric pressure
     * @param ventCoefficient flow coefficient of the bleed valve, m³/(s √Pa), 0 where shut
     * @param ceilingPa pressure at which the pump's relief opens
     * @return what of the offered volume went into the line, m³
     */
    double step(double stepS, double offeredM3, double ventCoefficient, double ceilingPa) {
        prepare(stepS);
        double halfFlow0 = 0.5 * stepS * outflow(pressurePa, warming(), ventCoefficient);
        double delivered = offeredM3;
        double p = solve(extraM3 + delivered - halfFlow0, stepS, ventCoefficient);
        if (delivered > 0 && p > ceilingPa) {
            double without = solve(extraM3 - halfFlow0, stepS, ventCoefficient);
            p = Math.max(ceilingPa, without);
            double needed = without >= ceilingPa
                    ? 0
                    : neededM3(p) - extraM3 + halfFlow0 + 0.5 * stepS * outflow(p, warmingAt(p), ventCoefficient);
            delivered = Math.max(0, Math.min(delivered, needed));
        }
        finish(p, stepS, delivered, halfFlow0, ventCoefficient);
        return delivered;
    }

    private void prepare(double stepS) {
        if (stepS != coefficientsForS) {
            setCoefficients(Require.positive(stepS, "time step", "s"));
        }
        nextSurroundingsK = heat.surroundingsK(timeS + stepS);
        if (warmingK.length == 0) {
            baseWarmingK = nextSurroundingsK;
            warmingSlope = 0;
        } else {
            baseWarmingK = 0;
            warmingSlope = 0;
            for (int i = 0; i < warmingK.length; i++) {
                double weight = heat.modes().get(i).weight();
                warmingBase[i] = heatDecay[i] * warmingK[i]
                        + (heatMean[i] - heatDecay[i]) * surroundingsK
                        + (1 - heatMean[i]) * nextSurroundingsK;
                baseWarmingK += weight * warmingBase[i];
                warmingSlope += weight * fill.heatingKPerPa() * heatMean[i];
            }
        }
        double hose0 = walls.hoseSwellingM3(pressurePa);
        baseCreepM3 = 0;
        creepShare = 0;
        for (int i = 0; i < creepM3.length; i++) {
            baseCreepM3 += creepDecay[i] * creepM3[i] + walls.creepPerDecade() * (creepMean[i] - creepDecay[i]) * hose0;
            creepShare += walls.creepPerDecade() * (1 - creepMean[i]);
        }
        if (Double.isInfinite(fill.airDissolvingS()) || undissolvedM3 == 0) {
            nextUndissolvedM3 = undissolvedM3;
        } else {
            // The pressure in mid-step, from the step before: second order without another unknown.
            double midPa = Math.max(0, pressurePa + 0.5 * stepS * slopePaPerS);
            double driving = midPa / (midPa + Oil.ATMOSPHERE_PA);
            nextUndissolvedM3 = undissolvedM3 * StrictMath.exp(-stepS / fill.airDissolvingS() * driving);
        }
    }

    private void setCoefficients(double stepS) {
        heatDecay = new double[warmingK.length];
        heatMean = new double[warmingK.length];
        for (int i = 0; i < warmingK.length; i++) {
            double x = stepS / heat.modes().get(i).tauS();
            heatDecay[i] = StrictMath.exp(-x);
            heatMean[i] = -StrictMath.expm1(-x) / x;
        }
        creepDecay = new double[creepM3.length];
        creepMean = new double[creepM3.length];
        for (int i = 0; i < creepM3.length; i++) {
            double x = stepS / creepTimesS[i];
            creepDecay[i] = StrictMath.exp(-x);
            creepMean[i] = -StrictMath.expm1(-x) / x;
        }
        coefficientsForS = stepS;
    }

    /** Warming of the oil at the end of the step if it ends at pressure {@code p}. */
    private double warmingAt(double p) {
        return baseWarmingK + warmingSlope * (p - pressurePa);
    }

    /** Loss of oil per time, as volume at atmospheric pressure, m³/s. */
    private double outflow(double p, double warming, double ventCoefficient) {
        if (p <= 0) {
            return 0;
        }
        double flow = leaks.flow(p) + (ventCoefficient == 0 ? 0 : ventCoefficient * Math.sqrt(p)) + returnM3PerSPa * p;
        return flow == 0 ? 0 : flow / relativeVolume(p, warming);
    }

    private double relativeVolume(double p, double warming) {
        return 1 + relativeChange(p, warming);
    }

    private double relativeChange(double p, double warming) {
        double grown = fill.expansionPerK() * warming;
        return grown - p / (fill.modulusPa() + fill.secantSlope() * p) * (1 + grown);
    }

    private double gasShrinkage(double p) {
        double ratio = Oil.ATMOSPHERE_PA / (Oil.ATMOSPHERE_PA + p);
        return airExponent == 1 ? ratio : StrictMath.pow(ratio, airExponent);
    }

    /** Oil beyond the first fill that the line holds at pressure {@code p} at the end of the step, m³. */
    private double neededM3(double p) {
        double change = relativeChange(p, warmingAt(p));
        return roomM3(p, change, nextUndissolvedM3 * gasShrinkage(p)) / (1 + change);
    }

    /** Room for more oil at pressure {@code p} beside this much gas, m³ at that pressure. */
    private double roomM3(double p, double change, double gas) {
        return fill.volumeM3() * walls.expansionPerK() * nextSurroundingsK
                + walls.swellingM3(p)
                + baseCreepM3
                + creepShare * walls.hoseSwellingM3(p)
                - oilM3 * change
                - (gas - airM3);
    }

    /**
     * Pressure at the end of the step; 0 where {@code availableM3} does not fill the line. The balance is convex and
     * falls with p, so Newton's method closes in from below without overshooting.
     */
    private double solve(double availableM3, double stepS, double ventCoefficient) {
        // While nothing happens the last slope hits so well that one evaluation does.
        double ahead = slopePaPerS * stepS;
        double p = Math.abs(ahead) < 0.1 * pressurePa ? pressurePa + ahead : pressurePa;
        boolean aboveZero = false;
        for (int i = 0; i < MOST_ITERATIONS; i++) {
            double next = newtonStep(p, availableM3, stepS, ventCoefficient);
            if (!(next > 0)) {
                if (!aboveZero) {
                    if (availableM3 <= neededM3(0)) {
                        return 0;
                    }
                    aboveZero = true;
                }
                if (p > 0 && p < 1e-25) {
                    return 0; // rounding alone has told it from 0
                }
                next = p > 0 ? p / 16 : 1e-6;
            }
            double moved = next - p;
            p = next;
            // The balance bends by at most about 1/p of its slope per Pa, so moved^2/p is left: below 1e-6 Pa, and
            // below
            // a millionth of p, which counts where a valve empties the line.
            if (moved * moved <= 1e-6 * p && Math.abs(moved) <= 1e-3 * p) {
                return p;
            }
        }
        throw new IllegalStateException("pressure did not settle within a step at " + timeS + " s, near " + p
                + " Pa; the rig's parameters are too extreme");
    }

    private double newtonStep(double p, double availableM3, double stepS, double ventCoefficient) {
        double grown = 1 + fill.expansionPerK() * warmingAt(p);
        double secant = fill.modulusPa() + fill.secantSlope() * p;
        double change = grown - 1 - p / secant * grown;
        double flow = 0;
        double flowSlope = 0;
        if (p > 0) {
            double floor = Math.max(p, 1e-30); // an orifice's slope at 0 is infinite
            double vent = ventCoefficient == 0 ? 0 : ventCoefficient * Math.sqrt(floor);
            flow = leaks.flow(p) + vent + returnM3PerSPa * p;
            flowSlope = leaks.slope(floor) + vent / (2 * floor) + returnM3PerSPa;
        }
        double extra = availableM3 - 0.5 * stepS * flow / (1 + change);
        double gas = nextUndissolvedM3 == 0 ? 0 : nextUndissolvedM3 * gasShrinkage(p);
        double surplus = extra * (1 + change) - roomM3(p, change, gas);
        double oilSlope =
                -fill.modulusPa() / (secant * secant) * grown + fill.expansionPerK() * warmingSlope * (1 - p / secant);
        double slope = (oilM3 + extra) * oilSlope
                - gas * airExponent / (Oil.ATMOSPHERE_PA + p)
                - walls.complianceM3PerPa(p)
                - creepShare * walls.hoseCompliance(p)
                - 0.5 * stepS * flowSlope;
        return p - surplus / slope;
    }

    private void finish(double p, double stepS, double delivered, double halfFlow0, double ventCoefficient) {
        double warming = warmingAt(p);
        double lost = halfFlow0 + 0.5 * stepS * outflow(p, warming, ventCoefficient);
        double needed = p == 0 ? neededM3(0) : 0;
        if (p == 0) {
            // Either the line ran empty within the step, and no more was lost than was there; or a void is left.
            lost = Math.max(0, Math.min(lost, extraM3 + delivered - needed));
        }
        double returned = returnM3PerSPa == 0 ? 0 : lost * returnShare(p, ventCoefficient);
        double bled = ventCoefficient == 0 ? 0 : (lost - returned) * ventShare(p, ventCoefficient);
        if (p == 0 && ventCoefficient > 0) {
            // An open valve lets go whatever the line cannot hold.
            bled += Math.max(0, extraM3 + delivered - lost - needed);
            lost = Math.max(lost, extraM3 + delivered - needed);
        }
        extraM3 += delivered - lost;
        voidM3 = p == 0 ? Math.max(0, needed - extraM3) : 0;
        pumpedM3 += delivered;
        bledM3 += bled;
        returnedM3 += returned;
        leakedM3 += lost - returned - bled;
        for (int i = 0; i < warmingK.length; i++) {
            warmingK[i] = warmingBase[i] + fill.heatingKPerPa() * heatMean[i] * (p - pressurePa);
        }
        double hose0 = walls.hoseSwellingM3(pressurePa);
        double hose1 = walls.hoseSwellingM3(p);
        for (int i = 0; i < creepM3.length; i++) {
            creepM3[i] = creepDecay[i] * creepM3[i]
                    + walls.creepPerDecade() * ((creepMean[i] - creepDecay[i]) * hose0 + (1 - creepMean[i]) * hose1);
        }
        surroundingsK = nextSurroundingsK;
        undissolvedM3 = nextUndissolvedM3;
        slopePaPerS = (p - pressurePa) / stepS;
        pressurePa = p;
        timeS += stepS;
    }

    private double ventShare(double p, double ventCoefficient) {
        double at = Math.max(0.5 * (p + pressurePa), 1e-3);
        double vent = ventCoefficient * Math.sqrt(at);
        return vent / (vent + leaks.flow(at));
    }

    private double returnShare(double p, double ventCoefficient) {
        double at = Math.max(0.5 * (p + pressurePa), 1e-3);
        double back = returnM3PerSPa * at;
        return back / (back + ventCoefficient * Math.sqrt(at) + leaks.flow(at));
    }

    /** Oil beyond the first fill that the line holds now by its state alone, for closing the balance, m³. */
    double storedM3() {
        double grown = fill.expansionPerK() * warming();
        double secant = fill.modulusPa() + fill.secantSlope() * pressurePa;
        double volume = fill.volumeM3() * (1 + walls.expansionPerK() * surroundingsK) + walls.swellingM3(pressurePa);
        for (double creep : creepM3) {
            volume += creep;
        }
        volume -= undissolvedM3 * gasShrinkage(pressurePa);
        return volume / ((1 - pressurePa / secant) * (1 + grown)) - oilM3 - voidM3;
    }
}
