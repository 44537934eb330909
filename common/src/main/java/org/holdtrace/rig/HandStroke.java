package org.holdtrace.rig;

/** One push of the lever: when, how long, of what shape and volume, interrupted or cut short. Times in s, volume in m³. */
final class HandStroke {
    private final double startS;
    private final double pushS;
    private final double volumeM3;
    private final StrokeShape shape;
    private final double hesitatesAt;
    private final double hesitationS;
    private double stopS = Double.POSITIVE_INFINITY;

    /**
     * @param hesitatesAt share of the push after which it pauses
     * @param hesitationS for how long, 0 for not at all
     */
    HandStroke(
            double startS, double pushS, double volumeM3, StrokeShape shape, double hesitatesAt, double hesitationS) {
        this.startS = startS;
        this.pushS = pushS;
        this.volumeM3 = volumeM3;
        this.shape = shape;
        this.hesitatesAt = hesitatesAt;
        this.hesitationS = hesitationS;
    }

    double startS() {
        return startS;
    }

    double endS() {
        return Math.min(stopS, startS + pushS + hesitationS);
    }

    /** Ends the push at {@code timeS} where it would have gone on. */
    void stopAt(double timeS) {
        stopS = Math.min(stopS, Math.max(startS, timeS));
    }

    /** What has been pushed by {@code timeS}. */
    double volumeByM3(double timeS) {
        double gone = Math.min(timeS, stopS) - startS;
        if (gone <= 0) {
            return 0;
        }
        double pauseFrom = hesitatesAt * pushS;
        double pushing = gone <= pauseFrom ? gone : Math.max(pauseFrom, gone - hesitationS);
        return pushing >= pushS ? volumeM3 : volumeM3 * shape.share(pushing / pushS);
    }
}
