package org.holdtrace.panel;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;

/**
 * The card in the documents is the one the program plays. Where the table was changed on purpose: look at what this test
 * leaves in {@code target/panel-card}, print it, and copy it to the documents.
 */
class PanelCardTest {
    private static void same(String name, String made) throws IOException {
        Path left = Path.of("target", "panel-card", name);
        Files.createDirectories(left.getParent());
        Files.writeString(left, made);
        assertEquals(Files.readString(Path.of("..", "docs", name)), made, name);
    }

    @Test
    void theWordsOfTheCardAreThoseOfTheProgram() throws IOException {
        same("panel-card.md", PanelCard.markdown());
    }

    @Test
    void thePictureOfTheCardIsThatOfTheProgram() throws IOException {
        same("panel-card.svg", PanelCard.svg());
    }
}
