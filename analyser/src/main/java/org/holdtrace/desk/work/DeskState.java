package org.holdtrace.desk.work;

import java.io.IOException;
import java.io.Reader;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Properties;
import java.util.Set;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicReference;
import java.util.function.Consumer;
import org.holdtrace.desk.look.Theme;

/**
 * What the desk remembers from one day to the next: look, units, window, what was open. Written whole to a file of its
 * own beside the old one, then put in its place, so that a crash leaves either; on a thread of its own. A memory that
 * cannot be read or written is a nuisance and no more: the desk starts as new, says so and goes on.
 */
public final class DeskState implements AutoCloseable {
    private static final String FILE = "desk.properties";
    private static final int MOST_RECENT = 12;

    private static final long LONGEST_CLOSE_S = 5;

    private final Path folder;
    private final Properties values = new Properties();
    private final AtomicReference<String> newest = new AtomicReference<>();
    private final ExecutorService writer = Executors.newSingleThreadExecutor(work -> {
        Thread daemon = new Thread(work, "desk-memory");
        daemon.setDaemon(true);
        return daemon;
    });
    private volatile Consumer<IOException> trouble = e -> {};

    private DeskState(Path folder) {
        this.folder = folder;
    }

    /** The memory kept in {@code folder}, which need not exist. */
    public static DeskState in(Path folder) {
        DeskState state = new DeskState(folder);
        try (Reader in = Files.newBufferedReader(folder.resolve(FILE), StandardCharsets.UTF_8)) {
            state.values.load(in);
        } catch (IOException | IllegalArgumentException e) {
            state.values.clear();
        }
        return state;
    }

    /** Where a desk keeps its memory on this machine: where the system's programs keep theirs. */
    public static Path usualFolder() {
        String home = System.getProperty("user.home");
        String roaming = System.getenv("APPDATA");
        if (System.getProperty("os.name").toLowerCase(Locale.ROOT).startsWith("windows") && roaming != null) {
            return Path.of(roaming, "Holdtrace");
        }
        if (System.getProperty("os.name").startsWith("Mac")) {
            return Path.of(home, "Library", "Application Support", "Holdtrace");
        }
        String state = System.getenv("XDG_STATE_HOME");
        return state == null || state.isBlank()
                ? Path.of(home, ".local", "state", "holdtrace")
                : Path.of(state, "holdtrace");
    }

    /** Where more may be kept beside it. */
    public Path folder() {
        return folder;
    }

    /** What is remembered as {@code name}, or {@code otherwise}. */
    public String get(String name, String otherwise) {
        return values.getProperty(name, otherwise);
    }

    /** A whole number from {@code low} to {@code high}, or {@code otherwise} where none such is remembered. */
    public int number(String name, int low, int high, int otherwise) {
        try {
            int number = Integer.parseInt(get(name, ""));
            return number >= low && number <= high ? number : otherwise;
        } catch (NumberFormatException e) {
            return otherwise;
        }
    }

    /** Remembers {@code value} as {@code name}, soon on disk as well. */
    public void put(String name, String value) {
        if (!value.equals(values.setProperty(name, value))) {
            save();
        }
    }

    /** The look; type of {@code otherwise} % of the usual size where none is remembered. */
    public Theme theme(int otherwise) {
        return new Theme(
                Boolean.parseBoolean(get("dark", "false")),
                number("text", Theme.SMALLEST_PERCENT, Theme.LARGEST_PERCENT, otherwise));
    }

    /** Remembers the look. */
    public void theme(Theme theme) {
        put("dark", Boolean.toString(theme.dark()));
        put("text", Integer.toString(theme.textPercent()));
    }

    /** Files and folders brought in, the latest first. */
    public List<Path> recent() {
        return paths("recent");
    }

    /** Remembers that {@code paths} were brought in. */
    public void remember(List<Path> paths) {
        Set<Path> all = new LinkedHashSet<>(paths);
        all.addAll(recent());
        List<Path> kept = new ArrayList<>(all);
        paths("recent", kept.subList(0, Math.min(kept.size(), MOST_RECENT)));
    }

    /** What was on the desk last. */
    public List<Path> open() {
        return paths("open");
    }

    /** Remembers what is on the desk. */
    public void open(List<Path> paths) {
        paths("open", paths);
    }

    private List<Path> paths(String name) {
        List<Path> paths = new ArrayList<>();
        for (String line : get(name, "").split("\n", -1)) {
            if (!line.isBlank()) {
                paths.add(Path.of(line));
            }
        }
        return paths;
    }

    private void paths(String name, List<Path> paths) {
        List<String> lines = new ArrayList<>();
        for (Path path : paths) {
            lines.add(path.toString());
        }
        put(name, String.join("\n", lines));
    }

    /** Calls {@code listener}, on a thread of its own, when the memory could not be written. */
    public void onTrouble(Consumer<IOException> listener) {
        trouble = listener;
    }

    private void save() {
        StringWriter text = new StringWriter();
        try {
            values.store(text, "What the desk of Holdtrace remembers; may be deleted");
        } catch (IOException e) {
            throw new UncheckedIOException("memory cannot fail", e);
        }
        newest.set(text.toString());
        if (!writer.isShutdown()) {
            writer.execute(this::write);
        }
    }

    private void write() {
        String text = newest.getAndSet(null);
        if (text == null) {
            return; // a later one was written already
        }
        try {
            Files.createDirectories(folder);
            SafeFile.write(folder.resolve(FILE), text);
        } catch (IOException e) {
            // A full or read-only disk must not keep anybody from looking at a trace.
            trouble.accept(e);
        }
    }

    /** Waits until all is written; nothing can be remembered afterwards. */
    @Override
    public void close() {
        writer.shutdown();
        try {
            if (!writer.awaitTermination(LONGEST_CLOSE_S, TimeUnit.SECONDS)) {
                writer.shutdownNow();
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }
}
