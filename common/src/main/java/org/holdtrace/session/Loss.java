package org.holdtrace.session;

import java.util.Locale;
import java.util.OptionalLong;

/**
 * Something that stood in a session and can no longer be read.
 *
 * @param kind what became of it
 * @param firstByte where in the file the trouble begins
 * @param endByte where it ends: the first byte that is good again, or the length of the file
 * @param firstSequence sequence number of the first frame that is missing
 * @param frames how many frames are missing, empty where nothing tells
 * @param fromNs time of the last sample before, ns since the session began; empty where there is none
 * @param toNs time of the first sample after it likewise
 */
public record Loss(
        Kind kind,
        long firstByte,
        long endByte,
        long firstSequence,
        OptionalLong frames,
        OptionalLong fromNs,
        OptionalLong toNs) {

    /** What became of it. */
    public enum Kind {
        /** Bytes were changed, lost or put in between whole frames. */
        DAMAGE,
        /** The file ends inside a frame, as it does when the power fails. */
        TORN_TAIL,
        /** A whole frame that belongs to another place: a number that was read before. It is left out. */
        OUT_OF_ORDER
    }

    /** In words: {@code frames 12 to 14, bytes 4096 to 5120, between 2.000 s and 3.250 s: damaged}. */
    public String describe() {
        StringBuilder text = new StringBuilder();
        if (frames.isPresent() && frames.getAsLong() > 0) {
            long last = firstSequence + frames.getAsLong() - 1;
            text.append(last == firstSequence ? "frame " + last : "frames " + firstSequence + " to " + last)
                    .append(", ");
        }
        text.append("bytes ").append(firstByte).append(" to ").append(endByte);
        if (fromNs.isPresent() && toNs.isPresent()) {
            text.append(", between ").append(seconds(fromNs)).append(" and ").append(seconds(toNs));
        } else if (fromNs.isPresent()) {
            text.append(", after ").append(seconds(fromNs));
        } else if (toNs.isPresent()) {
            text.append(", before ").append(seconds(toNs));
        }
        return text.append(
                        switch (kind) {
                            case DAMAGE -> ": damaged";
                            case TORN_TAIL -> ": the file ends inside a frame";
                            case OUT_OF_ORDER -> ": a frame that was read before, left out";
                        })
                .toString();
    }

    private static String seconds(OptionalLong ns) {
        return String.format(Locale.ROOT, "%.3f s", ns.getAsLong() / 1e9);
    }
}
