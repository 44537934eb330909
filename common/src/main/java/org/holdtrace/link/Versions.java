package org.holdtrace.link;

import java.util.OptionalInt;

/**
 * The versions of the link a program speaks.
 *
 * @param lowest oldest, 1 or more
 * @param highest newest, not below the oldest
 */
public record Versions(int lowest, int highest) {
    /** What this version of the program speaks. */
    public static final Versions OURS = new Versions(1, 1);

    public Versions {
        if (!(lowest >= 1 && highest >= lowest)) {
            throw new IllegalArgumentException("versions of the link from " + lowest + " to " + highest);
        }
    }

    /** The newest version both speak; empty where there is none. */
    public OptionalInt newestCommon(Versions other) {
        int newest = Math.min(highest, other.highest);
        return newest >= Math.max(lowest, other.lowest) ? OptionalInt.of(newest) : OptionalInt.empty();
    }

    /** In words: {@code 1} or {@code 1 to 3}. */
    public String describe() {
        return lowest == highest ? Integer.toString(lowest) : lowest + " to " + highest;
    }
}
