package org.holdtrace.desk.logger;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.nio.file.Path;
import java.util.List;
import org.holdtrace.desk.work.DeskState;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class LoggerMemoryTest {
    @TempDir
    Path folder;

    @Test
    void addressesAreRememberedTheLatestFirstAndTheKeyFileByItsPlace() {
        try (DeskState state = DeskState.in(folder)) {
            LoggerMemory memory = new LoggerMemory(state);
            assertEquals(List.of(), memory.addresses());
            for (int i = 1; i <= 9; i++) {
                memory.remember("10.0.0." + i, "");
            }
            memory.remember("10.0.0.5", "/keys/bench.key");
        }
        try (DeskState state = DeskState.in(folder)) {
            LoggerMemory memory = new LoggerMemory(state);
            assertEquals(
                    List.of(
                            "10.0.0.5",
                            "10.0.0.9",
                            "10.0.0.8",
                            "10.0.0.7",
                            "10.0.0.6",
                            "10.0.0.4",
                            "10.0.0.3",
                            "10.0.0.2"),
                    memory.addresses());
            assertEquals("/keys/bench.key", memory.keyFile());
        }
    }
}
