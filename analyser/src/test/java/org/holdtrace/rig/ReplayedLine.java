package org.holdtrace.rig;

import java.util.List;

/** The simulated line driven once more by the strokes that were pumped into it, each at a steady rate. */
public final class ReplayedLine {
    private static final double PUMPING_STEP_S = 0.02;
    private static final double HOLDING_STEP_S = 0.1;

    private ReplayedLine() {}

    /**
     * Pressures at the times wanted and, last, the volume stored at the last of them.
     *
     * @param fill the oil
     * @param walls the walls
     * @param heat how heat leaves
     * @param leaks what leaks
     * @param drainedM3 what was missing when pumping began, m³
     * @param strokes when each stroke was pushed
     * @param volumeM3 what each delivered, m³
     * @param timeS times wanted, rising, s
     * @return pressures in Pa, then a volume in m³
     */
    public static double[] run(
            OilFill fill,
            Walls walls,
            Heat heat,
            Leaks leaks,
            double drainedM3,
            List<Truth.Stroke> strokes,
            double[] volumeM3,
            double[] timeS) {
        LinePlant plant = new LinePlant(fill, walls, heat, leaks);
        plant.drain(drainedM3);
        double pumpedS = strokes.get(strokes.size() - 1).endS();
        double[] out = new double[timeS.length + 1];
        double now = 0;
        double before = 0;
        int next = 0;
        int stroke = 0;
        while (next < timeS.length) {
            double step = now < pumpedS ? PUMPING_STEP_S : HOLDING_STEP_S;
            double to = now + step;
            double offered = 0;
            for (int k = stroke; k < strokes.size() && strokes.get(k).startS() < to; k++) {
                Truth.Stroke push = strokes.get(k);
                double length = push.endS() - push.startS();
                double during = Math.min(to, push.endS()) - Math.max(now, push.startS());
                offered += volumeM3[k] * Math.max(0, during) / length;
                stroke = push.endS() <= to ? k + 1 : stroke;
            }
            plant.step(step, offered, 0, Double.POSITIVE_INFINITY);
            double pressure = plant.pressurePa();
            while (next < timeS.length && timeS[next] <= to) {
                out[next] = before + (pressure - before) * (timeS[next] - now) / step;
                next++;
            }
            before = pressure;
            now = to;
        }
        out[timeS.length] = plant.storedM3();
        return out;
    }
}
