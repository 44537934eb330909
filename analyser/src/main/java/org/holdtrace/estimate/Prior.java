package org.holdtrace.estimate;

import org.holdtrace.quantity.Quantity;

/** A value with its spread: normal where it was stated, log-normal where only its order is known. */
record Prior(double centre, double spread, boolean logarithmic) {
    /** Nobody knows the share of air better than to this part of the volume (common practice). */
    static final double LEAST_AIR = 1e-4;

    double at(double x) {
        return logarithmic ? centre * Math.exp(spread * x) : Math.max(centre + spread * x, 0.02 * Math.abs(centre));
    }

    /** The same where nothing keeps the value above zero. */
    double eitherSign(double x) {
        return centre + spread * x;
    }

    static Prior of(Quantity q, double toUnit) {
        double rel = q.relativeUncertainty();
        double centre = q.value() * toUnit;
        return rel > 0.3
                ? new Prior(centre, Math.sqrt(Math.log1p(Math.min(rel, 3) * Math.min(rel, 3))), true)
                : new Prior(centre, centre * rel, false);
    }

    /** Whether this is the same knowledge as {@code other}, number for number. */
    boolean sameAs(Prior other) {
        return centre == other.centre && spread == other.spread && logarithmic == other.logarithmic;
    }

    static Prior order(double centre, double spread) {
        return new Prior(centre, spread, true);
    }

    static Prior plain(double centre, double spread) {
        return new Prior(centre, spread, false);
    }

    /**
     * Air as stated, by nobody better than {@link #LEAST_AIR}. Where the value is small beside its uncertainty, a stated
     * zero above all, the share is spread as the positive half of a normal about zero is (mean u √(2/π), variance
     * u² (1 − 2/π)), as a log-normal of the same two moments: there is no less air than none.
     */
    static Prior ofAir(Quantity stated) {
        double u = Math.max(LEAST_AIR, stated.standardUncertainty());
        double half = 2 / Math.PI;
        double centre = u * half;
        if (stated.value() <= centre) {
            return order(centre, Math.sqrt(-Math.log(half)));
        }
        double rel = u / stated.value();
        return rel > 0.3
                ? order(stated.value(), Math.min(1.2, Math.sqrt(Math.log1p(rel * rel))))
                : plain(stated.value(), u);
    }
}
