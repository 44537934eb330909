package org.holdtrace.session;

import java.util.Collections;
import java.util.Map;
import java.util.TreeMap;

/**
 * That and why a recording was ended on purpose.
 *
 * @param reason in words
 * @param frames how many frames the session has, this one included
 * @param samples how many samples of each channel were recorded, by the channel's number
 */
public record EndMark(String reason, long frames, Map<Integer, Long> samples) {
    public EndMark {
        samples = Collections.unmodifiableMap(new TreeMap<>(samples));
    }
}
