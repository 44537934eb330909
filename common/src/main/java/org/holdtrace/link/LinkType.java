package org.holdtrace.link;

/** Type bytes of the link's frames. */
final class LinkType {
    static final int HELLO = 128;
    static final int WELCOME = 129;
    static final int REFUSED = 130;
    static final int PROOF = 131;
    static final int OPENED = 132;
    static final int REQUEST = 136;
    static final int ANSWER = 137;
    static final int FAILURE = 138;
    static final int LIVE_HEADER = 144;
    static final int LIVE_SAMPLES = 145;
    static final int LIVE_EVENT = 146;
    static final int LIVE_STATUS = 147;
    static final int DROPPED = 148;

    private LinkType() {}
}
