package org.holdtrace.link;

import java.io.IOException;

/** What went wrong on a link: a stable code for programs and words for people. */
public final class LinkException extends IOException {
    private static final long serialVersionUID = 1L;

    /** No version of the link is spoken by both. */
    public static final String VERSION = "version";
    /** A key is missing or wrong. */
    public static final String KEY = "key";
    /** Too many clients. */
    public static final String BUSY = "busy";
    /** The other end does not answer. */
    public static final String SILENT = "silent";
    /** The wire was closed or pulled. */
    public static final String CLOSED = "closed";
    /** A request before the hello or before the proof. */
    public static final String NOT_OPEN = "not-open";
    /** A request that makes no sense or asks for too much. */
    public static final String BAD_REQUEST = "bad-request";
    /** A request of a later version. */
    public static final String UNKNOWN_REQUEST = "unknown-request";
    /** There is no such session on the logger. */
    public static final String NO_SESSION = "no-session";
    /** The logger cannot do it now; the words say why. */
    public static final String REFUSED = "refused";
    /** A slip in the logger's program. */
    public static final String INTERNAL = "internal";

    private final String code;

    public LinkException(String code, String text) {
        super(text);
        this.code = code;
    }

    public LinkException(String code, String text, Throwable cause) {
        super(text, cause);
        this.code = code;
    }

    /** The stable code. */
    public String code() {
        return code;
    }
}
