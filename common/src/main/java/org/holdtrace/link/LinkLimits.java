package org.holdtrace.link;

/** Sizes and times both ends of a link keep to. They are part of the protocol and stand in {@code docs/link.md}. */
public final class LinkLimits {
    /** TCP port of a logger. Not assigned to any service as far as known (IANA's list, from memory). */
    public static final int DEFAULT_PORT = 28_650;

    /** What a logger that can be reached over the network is announced as (DNS-SD, RFC 6763; not registered with IANA). */
    public static final String SERVICE_TYPE = "_holdtrace._tcp";

    /** Speed of a serial line where none is said, bits a second: what a UART of a small computer is set to as a rule. */
    public static final int USUAL_BAUD = 115_200;

    private static final int SLOWEST_BAUD = 1200;
    private static final int FASTEST_BAUD = 4_000_000;

    /** What speeds a serial line may have, in words. */
    public static final String BAUDS = "a whole number from " + SLOWEST_BAUD + " to " + FASTEST_BAUD;

    /** Longest encoded frame, bytes: anything longer is damage. */
    public static final int LONGEST_FRAME = 1 << 16;

    /** Most bytes of a file in one answer: 1.4 s of a serial line at 115 200 baud. */
    public static final int LONGEST_CHUNK = 1 << 14;

    /** Most bytes of a file one digest goes over: under a second on a small computer. */
    public static final int LONGEST_DIGEST = 1 << 22;

    /** Most sessions in one answer. */
    public static final int LONGEST_LISTING = 128;

    /** Most characters of a text in a message. */
    public static final int LONGEST_TEXT = 2000;

    /** Most requests a client may have under way; the logger reads no more before it has answered. */
    public static final int MOST_REQUESTS = 8;

    /** A client sends something at least this often, ms. */
    public static final int PING_MS = 2000;

    /** A logger that heard nothing for so long forgets the client, ms. */
    public static final int SILENCE_MS = 15_000;

    /** Bytes of a hello's nonce. */
    public static final int NONCE_BYTES = 16;

    /** Bytes of a challenge. */
    public static final int CHALLENGE_BYTES = 32;

    private LinkLimits() {}

    /** Whether a serial line may have that speed, bits a second. */
    public static boolean isBaud(int baud) {
        return baud >= SLOWEST_BAUD && baud <= FASTEST_BAUD;
    }

    /** {@code text} cut to what a message may hold. */
    public static String clip(String text) {
        return text.length() <= LONGEST_TEXT ? text : text.substring(0, LONGEST_TEXT - 1) + "…";
    }
}
