package org.holdtrace.session;

import java.time.Instant;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;

/**
 * What stands at the head of a session.
 *
 * @param instrument which instrument recorded it, or the name of the simulated rig
 * @param software program and version that wrote it
 * @param startedAt wall-clock instant of time 0; empty where the instrument had no clock to believe
 * @param simulated true where no oil was ever under pressure: the session was computed
 * @param channels what was measured, at least one pressure among it
 * @param setup what was known of the test when recording began
 */
public record SessionHeader(
        String instrument,
        String software,
        Optional<Instant> startedAt,
        boolean simulated,
        List<Channel> channels,
        TestSetup setup) {
    public SessionHeader {
        channels = List.copyOf(channels);
        Set<Integer> ids = new HashSet<>();
        boolean pressure = false;
        for (Channel channel : channels) {
            pressure |= channel.kind() == ChannelKind.PRESSURE;
            if (!ids.add(channel.id())) {
                throw new IllegalArgumentException("two channels have the number " + channel.id());
            }
        }
        if (!pressure) {
            throw new IllegalArgumentException("a session needs a pressure channel");
        }
    }

    /** The channel of that number, where there is one. */
    public Optional<Channel> channel(int id) {
        for (Channel channel : channels) {
            if (channel.id() == id) {
                return Optional.of(channel);
            }
        }
        return Optional.empty();
    }

    /** The first channel of that kind, where there is one. */
    public Optional<Channel> channel(ChannelKind kind) {
        for (Channel channel : channels) {
            if (channel.kind() == kind) {
                return Optional.of(channel);
            }
        }
        return Optional.empty();
    }

    /** The same header with one channel read through another calibration. */
    SessionHeader with(int channelId, Calibration calibration) {
        if (channel(channelId).isEmpty()) {
            throw new IllegalArgumentException("the session has no channel " + channelId);
        }
        List<Channel> changed = new ArrayList<>();
        for (Channel channel : channels) {
            changed.add(channel.id() == channelId ? channel.with(calibration) : channel);
        }
        return new SessionHeader(instrument, software, startedAt, simulated, changed, setup);
    }
}
