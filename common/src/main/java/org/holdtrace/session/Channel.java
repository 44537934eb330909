package org.holdtrace.session;

/**
 * One measured quantity of a session.
 *
 * @param id number by which its sample blocks name it, 0 to 65535
 * @param kind what it measures
 * @param name a name for people; may be empty
 * @param nominalRateHz samples a second as they were asked for, above 0
 * @param calibration how its counts become SI values
 */
public record Channel(int id, ChannelKind kind, String name, double nominalRateHz, Calibration calibration) {
    private static final int LARGEST_ID = 65_535;

    public Channel {
        if (id < 0 || id > LARGEST_ID) {
            throw new IllegalArgumentException("a channel's number must be from 0 to 65535, was " + id);
        }
        if (!(nominalRateHz > 0 && nominalRateHz < Double.POSITIVE_INFINITY)) {
            throw new IllegalArgumentException(
                    "a nominal rate must be a finite number above 0 Hz, was " + nominalRateHz);
        }
    }

    /** The same channel read through another calibration. */
    public Channel with(Calibration other) {
        return new Channel(id, kind, name, nominalRateHz, other);
    }
}
