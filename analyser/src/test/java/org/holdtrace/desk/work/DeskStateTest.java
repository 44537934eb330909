package org.holdtrace.desk.work;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.holdtrace.desk.look.Theme;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class DeskStateTest {
    @TempDir
    Path folder;

    @Test
    void whatIsRememberedIsThereNextTime() {
        Path inside = folder.resolve("made/when/needed");
        try (DeskState state = DeskState.in(inside)) {
            state.theme(new Theme(true, 150));
            state.remember(List.of(Path.of("b"), Path.of("c")));
            state.remember(List.of(Path.of("a"), Path.of("b")));
            state.open(List.of(Path.of("ä ö.hold")));
        }
        try (DeskState next = DeskState.in(inside)) {
            assertEquals(new Theme(true, 150), next.theme(100));
            assertEquals(List.of(Path.of("a"), Path.of("b"), Path.of("c")), next.recent());
            assertEquals(List.of(Path.of("ä ö.hold")), next.open());
        }
    }

    @Test
    void aMemoryThatMakesNoSenseIsForgotten() throws IOException {
        Files.writeString(folder.resolve("desk.properties"), "text=12\nwidth=x\\u00zz");
        try (DeskState state = DeskState.in(folder)) {
            assertEquals(Theme.usual(), state.theme(100));
            assertEquals(new Theme(false, 200), state.theme(200));
            assertEquals(800, state.number("width", 100, 2000, 800));
        }
    }

    @Test
    void aMemoryThatCannotBeWrittenIsTold() throws IOException {
        Path inTheWay = Files.createFile(folder.resolve("file"));
        List<IOException> told = new ArrayList<>();
        try (DeskState state = DeskState.in(inTheWay)) {
            state.onTrouble(told::add);
            state.put("units", "psi, in3");
            assertEquals("psi, in3", state.get("units", ""));
        }
        assertEquals(1, told.size());
    }

    @Test
    void nothingIsLeftLyingAboutBesideIt() throws IOException {
        try (DeskState state = DeskState.in(folder)) {
            for (int i = 0; i < 50; i++) {
                state.put("x", Integer.toString(i));
            }
        }
        try (var files = Files.list(folder)) {
            assertEquals(List.of(folder.resolve("desk.properties")), files.toList());
        }
        assertTrue(Files.readString(folder.resolve("desk.properties")).contains("x=49"));
    }
}
