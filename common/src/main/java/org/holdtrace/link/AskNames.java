package org.holdtrace.link;

/** The words that stand for requests in a frame. */
final class AskNames {
    private AskNames() {}

    static String of(Ask ask) {
        if (ask instanceof Ask.State) {
            return "state";
        } else if (ask instanceof Ask.Sessions) {
            return "sessions";
        } else if (ask instanceof Ask.Fetch) {
            return "fetch";
        } else if (ask instanceof Ask.Digest) {
            return "digest";
        } else if (ask instanceof Ask.Start) {
            return "start";
        } else if (ask instanceof Ask.Stop) {
            return "stop";
        } else if (ask instanceof Ask.Zero) {
            return "zero";
        } else if (ask instanceof Ask.Plan) {
            return "plan";
        } else if (ask instanceof Ask.Clock) {
            return "clock";
        } else if (ask instanceof Ask.Follow) {
            return "follow";
        } else if (ask instanceof Ask.Unfollow) {
            return "unfollow";
        }
        return "ping";
    }
}
