package org.holdtrace.desk.logger;

import java.util.ArrayList;
import java.util.List;
import org.holdtrace.desk.work.DeskState;

/** Where loggers were reached lately, and where the file with their key is; never the key. On the event thread. */
public final class LoggerMemory {
    private static final String ADDRESSES = "loggers";
    private static final String KEY_FILE = "logger key file";
    private static final int MOST = 8;

    private final DeskState state;

    public LoggerMemory(DeskState state) {
        this.state = state;
    }

    /** Ports and hosts, the latest first. */
    List<String> addresses() {
        List<String> all = new ArrayList<>(List.of(state.get(ADDRESSES, "").split("\n", -1)));
        all.removeIf(String::isBlank);
        return all;
    }

    /** The path of the key file used last; empty where none was. */
    String keyFile() {
        return state.get(KEY_FILE, "");
    }

    void remember(String address, String keyFile) {
        List<String> all = addresses();
        all.remove(address);
        all.add(0, address);
        state.put(ADDRESSES, String.join("\n", all.subList(0, Math.min(all.size(), MOST))));
        state.put(KEY_FILE, keyFile);
    }
}
