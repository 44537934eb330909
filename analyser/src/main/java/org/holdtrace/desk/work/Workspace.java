package org.holdtrace.desk.work;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * The recordings on the desk and which hold test is looked at. On the event thread only; listeners are told after each
 * change.
 */
public final class Workspace {
    private final List<OpenRecording> recordings = new ArrayList<>();
    private final List<Runnable> listeners = new ArrayList<>();
    private Path chosenPath;
    private int chosenTest;

    /** Calls {@code listener} after every change, on the event thread. */
    public void addListener(Runnable listener) {
        listeners.add(listener);
    }

    /** All that are open, in the order in which they came. */
    public List<OpenRecording> recordings() {
        return List.copyOf(recordings);
    }

    /** Puts {@code recording} on the desk, in the place of one of the same file where there is one. */
    public void put(OpenRecording recording) {
        int at = indexOf(recording.path());
        if (at < 0) {
            recordings.add(recording);
        } else {
            recordings.set(at, recording);
        }
        if (chosenPath == null) {
            chosenPath = recording.path();
            chosenTest = 0;
        }
        tell();
    }

    /** Takes the recording at {@code path} off the desk; its file stays as it is. */
    public void remove(Path path) {
        int at = indexOf(path);
        if (at < 0) {
            return;
        }
        recordings.remove(at);
        if (path.equals(chosenPath)) {
            chosenPath = recordings.isEmpty()
                    ? null
                    : recordings.get(Math.min(at, recordings.size() - 1)).path();
            chosenTest = 0;
        }
        tell();
    }

    /** Looks at hold test {@code index}, 0 for the first, of the recording at {@code path}. */
    public void choose(Path path, int index) {
        if (!path.equals(chosenPath) || index != chosenTest) {
            chosenPath = path;
            chosenTest = index;
            tell();
        }
    }

    /** The recording that is looked at. */
    public Optional<OpenRecording> chosen() {
        int at = chosenPath == null ? -1 : indexOf(chosenPath);
        return at < 0 ? Optional.empty() : Optional.of(recordings.get(at));
    }

    /** Which of its hold tests is looked at, 0 for the first; it may have none. */
    public int chosenTest() {
        return chosenTest;
    }

    private int indexOf(Path path) {
        for (int i = 0; i < recordings.size(); i++) {
            if (recordings.get(i).path().equals(path)) {
                return i;
            }
        }
        return -1;
    }

    private void tell() {
        for (Runnable listener : List.copyOf(listeners)) {
            listener.run();
        }
    }
}
