package org.holdtrace.firmware;

import java.io.IOException;
import java.nio.file.DirectoryIteratorException;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Queue;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.ConcurrentLinkedQueue;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import java.util.function.Supplier;
import org.holdtrace.acquire.SampleRing;
import org.holdtrace.acquire.Sampler;
import org.holdtrace.panel.Panel;
import org.holdtrace.record.DiskStorage;
import org.holdtrace.record.Recorder;
import org.holdtrace.record.SessionNames;
import org.holdtrace.record.Storage;
import org.holdtrace.serve.LiveListener;
import org.holdtrace.serve.LoggerControl;
import org.holdtrace.serve.LoggerState;
import org.holdtrace.session.TestSetup;

/**
 * The logger at work: a thread that samples, one that does everything with the samples, one that writes. What is asked
 * from outside is done by the second, between two looks at the samples.
 */
final class Firmware implements LoggerControl, AutoCloseable {
    /** Samples wait in the ring for a minute at the highest rate before one is lost. */
    private static final int RING = 1 << 16;

    private static final long LOOK_NS = 20_000_000;
    private static final long ANSWER_WITHIN_MS = 5000;

    private final Equipment equipment;
    private final PlanFile planFile;
    private final Path folder;
    private final Sampler sampler;
    private final Recorder recorder;
    private final WallClock wallClock = new WallClock(Clock.systemUTC());
    private final Followers followers = new Followers();
    private final Watch watch;
    private final Queue<Runnable> asked = new ConcurrentLinkedQueue<>();
    private final Thread sampling;
    private final Thread work;
    private volatile boolean running = true;
    private volatile Throwable died;

    /**
     * Puts everything together and starts it.
     *
     * @param plan what is known of the next test
     * @param planFile where a plan is kept for the next start
     * @param alive is called many times a second for as long as all is well
     */
    Firmware(Equipment equipment, TestSetup plan, PlanFile planFile, Runnable alive) throws IOException {
        this(
                equipment,
                plan,
                planFile,
                alive,
                new DiskStorage(equipment.configuration().storage().sessions()));
    }

    /** One that writes through {@code disk}, which must be the folder of its sessions. */
    Firmware(Equipment equipment, TestSetup plan, PlanFile planFile, Runnable alive, Storage disk) throws IOException {
        this.equipment = equipment;
        this.planFile = planFile;
        SampleRing ring = new SampleRing(RING);
        sampler = new Sampler(
                equipment.converter(),
                equipment.sampled(),
                ring,
                equipment.configuration().rateHz(),
                equipment.clock());
        Configuration.Storage storage = equipment.configuration().storage();
        folder = storage.sessions();
        recorder = new Recorder(
                disk, SessionNames.in(folder), new Recorder.Room(storage.warnBelowBytes(), storage.stopBelowBytes()));
        watch = new Watch(equipment, sampler, ring, recorder, wallClock, followers, plan);
        sampling = new Thread(this::sample, "sampler");
        sampling.setDaemon(true);
        work = new Thread(() -> work(alive), "logger");
        work.setDaemon(true);
        equipment.panel().onPress(this::pressed);
        sampling.start();
        work.start();
    }

    private void sample() {
        try {
            SamplingPriority.lift();
            sampler.run();
        } catch (RuntimeException | Error e) {
            died = e;
            throw e;
        }
    }

    private void work(Runnable alive) {
        try {
            while (running) {
                for (Runnable next = asked.poll(); next != null; next = asked.poll()) {
                    next.run();
                }
                if (died != null) {
                    throw new IllegalStateException("sampling ended by a fault of the program", died);
                }
                watch.look();
                alive.run();
                equipment.clock().waitNs(LOOK_NS);
            }
            finish("the logger was stopped");
        } catch (RuntimeException | Error e) {
            died = e;
            finish("ended by a fault of the program: " + e);
            throw e;
        }
    }

    /** The recorder sees to it that what it was handed reaches the disk: see {@link #close}. */
    private void finish(String reason) {
        CompletableFuture<Void> unused = watch.endSession(reason);
    }

    private void pressed(Panel.Press press) {
        if (press == Panel.Press.SHORT) {
            asked.add(watch::buttonShort);
        } else {
            asked.add(watch::buttonLong);
        }
    }

    /** Why the firmware has ended though nobody stopped it; null for as long as it works. */
    Throwable died() {
        return died;
    }

    private <T> T ask(Supplier<T> question) throws IOException {
        CompletableFuture<T> answer = new CompletableFuture<>();
        asked.add(() -> {
            try {
                T done = question.get();
                watch.refresh();
                answer.complete(done);
            } catch (RuntimeException e) {
                answer.completeExceptionally(e);
            }
        });
        return get(answer, "the logger did not answer within 5 s");
    }

    private static <T> T get(CompletableFuture<T> answer, String tooLate) throws IOException {
        try {
            return answer.get(ANSWER_WITHIN_MS, TimeUnit.MILLISECONDS);
        } catch (ExecutionException e) {
            Throwable cause = e.getCause();
            throw new IOException(cause.getMessage(), cause);
        } catch (TimeoutException e) {
            throw new IOException(tooLate, e);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new IOException("interrupted", e);
        }
    }

    @Override
    public LoggerState state() {
        return watch.state();
    }

    @Override
    public List<StoredSession> sessions() throws IOException {
        List<StoredSession> sessions = new ArrayList<>();
        String open = recorder.fileName().orElse("");
        try (DirectoryStream<Path> files = Files.newDirectoryStream(folder, "*" + SessionNames.SUFFIX)) {
            for (Path file : files) {
                String name = file.getFileName().toString();
                if (Files.isRegularFile(file, LinkOption.NOFOLLOW_LINKS)) {
                    sessions.add(new StoredSession(name, Files.size(file), name.equals(open)));
                }
            }
        } catch (DirectoryIteratorException e) {
            throw e.getCause();
        }
        sessions.sort((a, b) -> SessionNames.compare(a.name(), b.name()));
        return sessions;
    }

    @Override
    public String start() throws IOException {
        CompletableFuture<String> name = ask(() -> watch.beginSession("started over the link", false));
        return get(name, "a session runs in memory, but the disk has not taken it yet");
    }

    @Override
    public void stop() throws IOException {
        CompletableFuture<Void> done = ask(() -> watch.endSession("stopped over the link"));
        get(done, "the session has ended, but the disk has not taken its end yet");
    }

    @Override
    public void zero() throws IOException {
        String refused = ask(watch::zero);
        if (!refused.isEmpty()) {
            throw new IOException(refused);
        }
    }

    @Override
    public void plan(TestSetup setup) throws IOException {
        planFile.write(setup);
        ask(() -> {
            watch.plan(setup);
            return true;
        });
    }

    @Override
    public void clock(Instant now) {
        wallClock.set(now);
    }

    @Override
    public Path file(String name) throws IOException {
        for (StoredSession session : sessions()) {
            if (session.name().equals(name)) {
                return folder.resolve(name);
            }
        }
        throw new IOException("there is no session " + name + " here");
    }

    @Override
    public void follow(LiveListener listener) {
        followers.add(listener);
    }

    @Override
    public void forget(LiveListener listener) {
        followers.remove(listener);
    }

    /** Ends the session that runs, and everything. */
    @Override
    public void close() {
        running = false;
        join(work);
        sampler.stop();
        join(sampling);
        recorder.close();
        equipment.panel().close();
        equipment.converter().close();
    }

    private static void join(Thread thread) {
        try {
            thread.join(3000);
            if (thread.isAlive()) {
                thread.interrupt();
                thread.join(1000);
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }
}
