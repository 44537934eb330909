package org.holdtrace.session;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

/** docs/setup.md says of every field what it is, and its examples are those of the messages. */
class SetupDocumentTest {
    private static final Path DOCUMENT = Path.of("..", "docs", "setup.md");

    @Test
    void everyFieldHasItsRowWithTheExampleThatMessagesShow() throws IOException {
        List<String> written = Files.readAllLines(DOCUMENT).stream()
                .filter(line -> line.startsWith("| `"))
                .map(line -> line.split(" \\| "))
                .map(cells -> cells[0].substring(2) + " " + cells[2])
                .toList();
        List<String> wanted = Stream.of(SetupField.values())
                .map(field -> "`" + field.path() + "` `" + field.example().replace("\"", "") + "`")
                .toList();
        assertEquals(wanted, written);
    }

    @Test
    void theExampleIsASetupInWhichEveryFieldIsRead() throws IOException {
        StringBuilder json = new StringBuilder();
        for (String line : Files.readAllLines(DOCUMENT)) {
            if (line.startsWith("    ")) {
                json.append(line).append('\n');
            }
        }
        Path file = Files.createTempFile("holdtrace", ".setup.json");
        try {
            Files.writeString(file, json);
            TestSetup setup = SetupReader.read(file);
            assertEquals(SetupField.values().length, SetupField.valuesOf(setup).size());
        } finally {
            Files.delete(file);
        }
    }
}
