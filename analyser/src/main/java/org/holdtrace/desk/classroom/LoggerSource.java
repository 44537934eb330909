package org.holdtrace.desk.classroom;

import java.io.IOException;
import java.util.List;
import java.util.Optional;
import org.holdtrace.link.Ask;
import org.holdtrace.link.LinkClient;
import org.holdtrace.link.LinkException;
import org.holdtrace.link.LinkMessage;
import org.holdtrace.link.Status;
import org.holdtrace.session.Calibration;
import org.holdtrace.session.Channel;
import org.holdtrace.session.ChannelKind;
import org.holdtrace.session.SampleBlock;
import org.holdtrace.session.TestSetup;

/** A logger's line as it is measured. A pulled cable is waited for; recording never depends on it. */
final class LoggerSource implements Source {
    /** Opens a link to the logger; blocks until it is there. */
    interface Opener {
        LinkClient open() throws IOException;
    }

    private static final int STATE_EVERY_MS = 200;
    private static final long BEFORE_NEXT_TRY_MS = 1000;

    private final String where;
    private final Opener opener;
    private final Lane lane;
    private volatile TestSetup setup = TestSetup.unknown();
    private volatile String state = "being reached";
    private volatile boolean closed;
    private volatile LinkClient client;
    private Runnable changed = () -> {};

    /** The logger that {@code opener} reaches, called {@code where} on the screen. */
    LoggerSource(String where, Opener opener) {
        this.where = where;
        this.opener = opener;
        lane = new Lane(where, Verdicts.soFar(() -> setup));
    }

    @Override
    public List<Lane> lanes() {
        return List.of(lane);
    }

    @Override
    public String title() {
        return "live from " + where + " · " + state;
    }

    @Override
    public List<Key> keys() {
        return List.of();
    }

    @Override
    public void begin(Runnable whenChanged) {
        changed = whenChanged;
        Thread thread = new Thread(this::follow, "class-view " + where);
        thread.setDaemon(true);
        thread.start();
    }

    private void follow() {
        while (!closed) {
            Listening listening = new Listening();
            try (LinkClient opened = opener.open()) {
                client = opened;
                opened.listen(listening);
                opened.ask(new Ask.Follow(true, STATE_EVERY_MS));
                listening.awaitEnd();
            } catch (IOException e) {
                lane.fallSilent();
                state(e.getMessage() + "; tried again");
            } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
                return;
            } finally {
                client = null;
            }
            try {
                Thread.sleep(BEFORE_NEXT_TRY_MS);
            } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
                return;
            }
        }
    }

    private void state(String next) {
        state = next;
        changed.run();
    }

    @Override
    public void close() {
        closed = true;
        LinkClient open = client;
        if (open != null) {
            // Takes a while where the logger does not read any more; the event thread does not wait for it.
            Thread closing = new Thread(open::close, "class-view close");
            closing.setDaemon(true);
            closing.start();
        }
    }

    private final class Listening implements LinkClient.Listener {
        private final Object lock = new Object();
        private boolean ended;
        private Optional<Channel> pressure = Optional.empty();

        @Override
        public void live(LinkMessage message) {
            if (message instanceof LinkMessage.LiveHeader header) {
                pressure = header.header().channel(ChannelKind.PRESSURE);
                pressure.ifPresent(
                        channel -> lane.setStep(Math.abs(channel.calibration().perCount())));
                setup = header.header().setup();
            } else if (message instanceof LinkMessage.LiveSamples samples) {
                pressure.filter(channel -> channel.id() == samples.block().channelId())
                        .ifPresent(channel -> take(samples.block(), channel.calibration()));
            } else if (message instanceof LinkMessage.LiveStatus status) {
                state(words(status.status()));
            }
        }

        private void take(SampleBlock block, Calibration calibration) {
            long[] timesNs = block.timesNs();
            long[] counts = block.counts();
            double[] timeS = new double[counts.length];
            double[] pressurePa = new double[counts.length];
            for (int i = 0; i < counts.length; i++) {
                timeS[i] = timesNs[i] / 1e9;
                pressurePa[i] = calibration.siValue((int) counts[i]);
            }
            lane.accept(timeS, pressurePa, counts.length);
            changed.run();
        }

        @Override
        public void ended(LinkException why) {
            if (!closed) {
                lane.fallSilent();
                state(why.getMessage() + "; waiting for it");
            }
            synchronized (lock) {
                ended = true;
                lock.notifyAll();
            }
        }

        private void awaitEnd() throws InterruptedException {
            synchronized (lock) {
                while (!ended) {
                    lock.wait();
                }
            }
        }
    }

    private static String words(Status status) {
        return status.faults().isEmpty() ? status.advice() : "fault: " + String.join("; ", status.faults());
    }
}
