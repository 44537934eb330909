package org.holdtrace.rig;

/** How a stroke's volume comes over its duration: from share x of the time to share of the volume. */
public enum StrokeShape {
    /** Steady flow. */
    STEADY {
        @Override
        double share(double x) {
            return x;
        }
    },
    /** Flow like half a sine. */
    HALF_SINE {
        @Override
        double share(double x) {
            return 0.5 - 0.5 * StrictMath.cos(Math.PI * x);
        }
    },
    /** A quick push that slows as the lever gets heavy. */
    FRONT_LOADED {
        @Override
        double share(double x) {
            return x * (2 - x);
        }
    },
    /** A slow start and a quick end. */
    BACK_LOADED {
        @Override
        double share(double x) {
            return x * x;
        }
    },
    /** Smooth at both ends, most of it in the middle. */
    BELL {
        @Override
        double share(double x) {
            return x * x * x * (10 + x * (6 * x - 15));
        }
    };

    /** Share of the volume delivered when the share {@code x} (0 to 1) of the time is over. */
    abstract double share(double x);
}
