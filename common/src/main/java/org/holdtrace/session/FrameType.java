package org.holdtrace.session;

/** What a frame holds. The code stands in the file; codes from 0x80 on belong to the live link and never to a file. */
public enum FrameType {
    /** Who recorded what and how to turn counts into pressure. */
    HEADER(1),
    /** Raw counts of one channel with their times. */
    SAMPLES(2),
    /** Something that happened at one instant. */
    EVENT(3),
    /** What a simulated session was made with. */
    TRUTH(4),
    /** The recording was ended on purpose. */
    END(5);

    private final int code;

    FrameType(int code) {
        this.code = code;
    }

    /** The byte in the frame. */
    public int code() {
        return code;
    }

    /** The type with that code; null for one of a later version. */
    public static FrameType of(int code) {
        for (FrameType type : values()) {
            if (type.code == code) {
                return type;
            }
        }
        return null;
    }
}
