package org.holdtrace.desk.classroom;

import java.util.ArrayList;
import java.util.List;
import org.holdtrace.estimate.HoldTestResult;
import org.holdtrace.trace.HoldTest;
import org.holdtrace.trace.Trace;
import org.holdtrace.wording.Figures;

/** One or two recordings played together, their first strokes at the same moment, as fast as the instructor likes. */
final class ReplaySource extends TimedSource {
    /**
     * A recording that is played.
     *
     * @param name what stands above it
     * @param trace its samples
     * @param results what the analysis makes of it
     */
    record Played(String name, Trace trace, List<HoldTestResult> results) {
        Played {
            results = List.copyOf(results);
        }

        /** When its first stroke begins, s; its first sample where there is none. */
        double firstStrokeS() {
            for (HoldTestResult result : results) {
                HoldTest test = result.holdTest();
                if (!test.strokes().isEmpty()) {
                    return test.strokes().get(0).startS();
                }
            }
            return trace.size() == 0 ? 0 : trace.timeS(0);
        }
    }

    private static final double[] SPEEDS = {0.1, 0.25, 0.5, 1, 2, 5, 10, 25, 100};
    private static final int REAL_TIME = 3;
    private static final double JUMP_S = 10;

    private static final class Track {
        private final Played played;
        private final Lane lane;
        /** What to add to the playing time for the recording's own, s. */
        private final double shiftS;

        private int next;

        Track(Played played) {
            this.played = played;
            lane = new Lane(played.name(), Verdicts.recorded(played.results()));
            shiftS = played.firstStrokeS();
        }

        double fromS() {
            return played.trace().size() == 0 ? 0 : played.trace().timeS(0) - shiftS;
        }

        double toS() {
            return played.trace().size() == 0
                    ? 0
                    : played.trace().timeS(played.trace().size() - 1) - shiftS;
        }

        void rewind() {
            next = 0;
            lane.clear();
        }

        /** Feeds what lies before {@code playedS}. */
        void feedTo(double playedS) {
            int end = played.trace().indexAt(playedS + shiftS);
            double[] times = new double[Math.min(CHUNK, Math.max(0, end - next))];
            double[] pressures = new double[times.length];
            while (next < end) {
                int count = Math.min(times.length, end - next);
                for (int i = 0; i < count; i++) {
                    times[i] = played.trace().timeS(next + i);
                    pressures[i] = played.trace().pressurePa(next + i);
                }
                lane.accept(times, pressures, count);
                next += count;
            }
        }

        private static final int CHUNK = 8192;
    }

    private final List<Track> tracks;
    private final double fromS;
    private final double toS;
    private volatile double atS;
    private volatile double wantedS = Double.NaN;
    private volatile int speed = REAL_TIME;
    private volatile boolean paused;

    /** Plays {@code recordings}, one or two. */
    ReplaySource(List<Played> recordings) {
        super("replay");
        if (recordings.isEmpty() || recordings.size() > 2) {
            throw new IllegalArgumentException("one or two recordings can be played, not " + recordings.size());
        }
        tracks = recordings.stream().map(Track::new).toList();
        fromS = tracks.stream().mapToDouble(Track::fromS).min().orElse(0);
        toS = tracks.stream().mapToDouble(Track::toS).max().orElse(0);
        atS = fromS;
    }

    @Override
    public List<Lane> lanes() {
        List<Lane> lanes = new ArrayList<>();
        tracks.forEach(track -> lanes.add(track.lane));
        return lanes;
    }

    @Override
    public String title() {
        String state = atS >= toS ? "at its end" : paused ? "paused" : Figures.significant(SPEEDS[speed], 3) + " ×";
        return "recorded · " + state + " · " + Figures.fixed(atS - fromS, 0) + " of " + Figures.fixed(toS - fromS, 0)
                + " s" + trouble();
    }

    @Override
    public List<Key> keys() {
        return List.of(
                new Key("P", "P", "pause / play", () -> paused = !paused),
                new Key("PLUS", "+", "faster", () -> faster(1)),
                new Key("MINUS", "−", "slower", () -> faster(-1)),
                new Key("LEFT", "←", "10 s back", () -> jump(atS - JUMP_S)),
                new Key("RIGHT", "→", "10 s on", () -> jump(atS + JUMP_S)),
                new Key("HOME", "Home", "from the start", () -> jump(fromS)));
    }

    private void faster(int by) {
        speed = Math.max(0, Math.min(SPEEDS.length - 1, speed + by));
        tellChanged();
    }

    private void jump(double toTimeS) {
        wantedS = Math.max(fromS, Math.min(toS, toTimeS));
    }

    @Override
    void tick(double passedS) {
        double jumpS = wantedS;
        double nextS = paused ? atS : Math.min(toS, atS + passedS * SPEEDS[speed]);
        if (!Double.isNaN(jumpS)) {
            wantedS = Double.NaN;
            nextS = jumpS;
            if (jumpS < atS) {
                tracks.forEach(Track::rewind);
            }
        } else if (nextS == atS) {
            return;
        }
        double untilS = nextS >= toS ? Math.nextUp(nextS + 1e-9) : nextS;
        tracks.forEach(track -> track.feedTo(untilS));
        atS = nextS;
        tellChanged();
    }
}
