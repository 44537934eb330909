package org.holdtrace.session;

import java.io.IOException;
import java.io.InputStream;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.TreeMap;

/**
 * What is in a session's file, without its samples: how far it goes and what is missing. Takes little memory, however
 * long the session is.
 *
 * @param header its header
 * @param samples how many samples of each channel can be read, by the channel's number
 * @param lastNs time of the last sample, ns since the session began; empty where there is none
 * @param nextSequence a frame number that was never used, the next after all that were
 * @param openEnd whether the last byte is not the zero byte that ends a frame
 * @param tornFrame whether what stands behind the last zero byte is no whole frame
 * @param losses what can no longer be read
 * @param remarks what else a reader should know
 * @param end how recording ended; empty where it was cut short
 */
public record SessionScan(
        SessionHeader header,
        Map<Integer, Long> samples,
        OptionalLong lastNs,
        long nextSequence,
        boolean openEnd,
        boolean tornFrame,
        List<Loss> losses,
        List<String> remarks,
        Optional<EndMark> end) {
    private static final int BUFFER = 1 << 16;

    public SessionScan {
        samples = Collections.unmodifiableMap(new TreeMap<>(samples));
        losses = List.copyOf(losses);
        remarks = List.copyOf(remarks);
    }

    /**
     * Looks through a session; {@code name} stands for the file in messages.
     *
     * @throws InputException where it holds no header that can be read, or one of a later major version
     * @throws IOException where it cannot be read at all
     */
    public static SessionScan of(InputStream in, String name) throws IOException {
        SessionAssembler session = new SessionAssembler(name, false);
        byte[] buffer = new byte[BUFFER];
        for (int n = in.read(buffer); n >= 0; n = in.read(buffer)) {
            session.accept(buffer, 0, n);
        }
        return session.scan();
    }
}
