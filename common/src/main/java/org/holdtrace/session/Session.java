package org.holdtrace.session;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.holdtrace.trace.Trace;

/** A recorded or simulated session as it was read: raw counts, and what turns them into a trace. Immutable. */
public final class Session {
    /** A slow channel's reading stands until the next one, but no longer than this many of its nominal intervals. */
    private static final double READING_HOLDS_INTERVALS = 5;

    private final SessionHeader header;
    private final Map<Integer, List<SampleBlock>> blocks;
    private final List<SessionEvent> events;
    private final List<Truth> truth;
    private final List<Loss> losses;
    private final List<String> remarks;
    private final Optional<EndMark> end;

    Session(
            SessionHeader header,
            Map<Integer, List<SampleBlock>> blocks,
            List<SessionEvent> events,
            List<Truth> truth,
            List<Loss> losses,
            List<String> remarks,
            Optional<EndMark> end) {
        this.header = header;
        this.blocks = blocks;
        this.events = List.copyOf(events);
        this.truth = List.copyOf(truth);
        this.losses = List.copyOf(losses);
        this.remarks = List.copyOf(remarks);
        this.end = end;
    }

    /** Who recorded what, and how. */
    public SessionHeader header() {
        return header;
    }

    /** What was known of the test when recording began. */
    public TestSetup setup() {
        return header.setup();
    }

    /** What happened while recording, in the order it was written. */
    public List<SessionEvent> events() {
        return events;
    }

    /** What a simulated session was made with; empty for a recorded one. */
    public List<Truth> truth() {
        return truth;
    }

    /** What stood in the session and can no longer be read, in the order of the file. */
    public List<Loss> losses() {
        return losses;
    }

    /** What else a reader of the session should know, in words: parts of a later version that were skipped, no end. */
    public List<String> remarks() {
        return remarks;
    }

    /** How recording ended; empty where it was cut short. */
    public Optional<EndMark> end() {
        return end;
    }

    /** The same session with one channel read through another, say a later, calibration. */
    public Session withCalibration(int channelId, Calibration calibration) {
        return new Session(header.with(channelId, calibration), blocks, events, truth, losses, remarks, end);
    }

    /** How many samples a channel has. */
    public int sampleCount(int channelId) {
        int count = 0;
        for (SampleBlock block : blocks(channelId)) {
            count += block.size();
        }
        return count;
    }

    /** Raw counts of a channel. */
    public int[] counts(int channelId) {
        int[] counts = new int[sampleCount(channelId)];
        int at = 0;
        for (SampleBlock block : blocks(channelId)) {
            for (long count : block.counts()) {
                counts[at++] = (int) count;
            }
        }
        return counts;
    }

    /** Times of a channel's samples, ns since the session began. */
    public long[] timesNs(int channelId) {
        long[] times = new long[sampleCount(channelId)];
        int at = 0;
        for (SampleBlock block : blocks(channelId)) {
            System.arraycopy(block.timesNs(), 0, times, at, block.size());
            at += block.size();
        }
        return times;
    }

    /**
     * The trace of the first pressure channel: pressure in Pa, and the session's temperatures in K at the same times. A
     * temperature is the last reading before, for at most five of that channel's nominal intervals; NaN where there is
     * none.
     */
    public Trace trace() {
        return trace(header.channel(ChannelKind.PRESSURE).orElseThrow().id());
    }

    /** As {@link #trace()}, of another pressure channel. */
    public Trace trace(int channelId) {
        Optional<Channel> found = header.channel(channelId);
        if (found.isEmpty()) {
            throw new IllegalArgumentException("the session has no channel " + channelId);
        }
        Channel channel = found.get();
        int size = sampleCount(channelId);
        double[] timeS = new double[size];
        double[] pressurePa = new double[size];
        double atZero = channel.calibration().atZeroCount();
        double perCount = channel.calibration().perCount();
        int at = 0;
        for (SampleBlock block : blocks(channelId)) {
            long[] timesNs = block.timesNs();
            long[] counts = block.counts();
            for (int i = 0; i < counts.length; i++) {
                timeS[at] = timesNs[i] / 1e9;
                pressurePa[at++] = atZero + counts[i] * perCount;
            }
        }
        return new Trace(
                timeS,
                pressurePa,
                temperatures(ChannelKind.OIL_TEMPERATURE, timeS),
                temperatures(ChannelKind.AMBIENT_TEMPERATURE, timeS),
                header.startedAt());
    }

    private double[] temperatures(ChannelKind kind, double[] timeS) {
        Optional<Channel> channel = header.channel(kind);
        if (channel.isEmpty()) {
            return null;
        }
        long[] readAtNs = timesNs(channel.get().id());
        int[] counts = counts(channel.get().id());
        double holdsS = READING_HOLDS_INTERVALS / channel.get().nominalRateHz();
        double[] temperatures = new double[timeS.length];
        int next = 0;
        for (int i = 0; i < timeS.length; i++) {
            while (next < counts.length && readAtNs[next] / 1e9 <= timeS[i]) {
                next++;
            }
            boolean holds = next > 0 && timeS[i] - readAtNs[next - 1] / 1e9 <= holdsS;
            temperatures[i] = holds ? channel.get().calibration().siValue(counts[next - 1]) : Double.NaN;
        }
        return temperatures;
    }

    private List<SampleBlock> blocks(int channelId) {
        return blocks.getOrDefault(channelId, List.of());
    }
}
