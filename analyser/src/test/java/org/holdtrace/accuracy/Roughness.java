package org.holdtrace.accuracy;

/**
 * How well hands, transducers and workshops behave. Where a range is given, draws are spread evenly over it, on a
 * logarithmic scale where it spans more than a factor of five. The ranges are what the trade and physics suggest; no
 * source gives them.
 *
 * @param label its name
 * @param lowestCelsius coldest oil, degC
 * @param highestCelsius warmest oil, degC
 * @param driftKPerH standard deviation of the ambient temperature's drift, K/h
 * @param tempoLeast least relative scatter of a hand's tempo
 * @param tempoMost greatest
 * @param strokeScatterMost greatest relative scatter of a stroke's volume; the least is a quarter of it
 * @param noiseMost greatest white noise as a share of the transducer's span; the least is 1/10 of it
 * @param oddHands share of hands that push half strokes, and likewise hesitate or take breaks
 * @param oddStrokes share of their strokes that are so
 * @param faulty share of recordings with spikes, and likewise with gaps
 * @param airMost greatest air fraction at atmospheric pressure; the least is 1/12 of it
 * @param zeroDriftPerH standard deviation of the zero's drift as a share of the span in an hour
 * @param hasty share of recordings that begin less than 2 s before the first stroke
 * @param shutMostS longest time in which a shut-off valve is shut after the last push, s; the shortest is 0.3 s
 * @param backMost greatest share of the pressure that oil flowing back through the pump costs until then
 * @param stemMostCm3 most that the valve's stem displaces, cm³
 */
public record Roughness(
        String label,
        double lowestCelsius,
        double highestCelsius,
        double driftKPerH,
        double tempoLeast,
        double tempoMost,
        double strokeScatterMost,
        double noiseMost,
        double oddHands,
        double oddStrokes,
        double faulty,
        double airMost,
        double zeroDriftPerH,
        double hasty,
        double shutMostS,
        double backMost,
        double stemMostCm3) {
    /** A careful technician in a workshop. */
    public static final Roughness PLAIN = new Roughness(
            "plain", 8, 38, 0.35, 0.04, 0.15, 0.02, 2.5e-4, 0.2, 0.02, 0.2, 0.012, 1e-4, 0.04, 3, 0.01, 0.01);

    /** A hurried one in the yard, with a poor transducer. */
    public static final Roughness ROUGH = new Roughness(
            "rough", -2, 50, 0.6, 0.08, 0.3, 0.035, 8e-4, 0.45, 0.04, 0.5, 0.02, 3e-4, 0.12, 5, 0.03, 0.02);

    /** Plain or rough. */
    public static Roughness named(String name) {
        return switch (name) {
            case "plain" -> PLAIN;
            case "rough" -> ROUGH;
            default -> throw new IllegalArgumentException("--profile is plain or rough, was " + name);
        };
    }
}
