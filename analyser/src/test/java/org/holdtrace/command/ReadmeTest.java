package org.holdtrace.command;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.holdtrace.session.CsvTraceReader;
import org.holdtrace.session.SetupReader;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What the README shows can be used as it stands. */
class ReadmeTest {
    private static final Path README = Path.of("..", "README.md");

    @TempDir
    Path folder;

    /** The indented blocks of the README, without their indent. */
    private static List<String> blocks() throws IOException {
        List<String> blocks = new ArrayList<>();
        StringBuilder block = new StringBuilder();
        for (String line : Files.readAllLines(README)) {
            if (line.startsWith("    ")) {
                block.append(line.substring(4)).append('\n');
            } else if (block.length() > 0) {
                blocks.add(block.toString());
                block.setLength(0);
            }
        }
        return blocks;
    }

    private static String blockThatStarts(String start) throws IOException {
        return blocks().stream()
                .filter(block -> block.startsWith(start))
                .findFirst()
                .orElseThrow();
    }

    @Test
    void itsTraceIsRead() throws IOException {
        Path trace = Files.writeString(folder.resolve("a.csv"), blockThatStarts("time [s]"));
        assertEquals(2, CsvTraceReader.read(trace).size());
    }

    @Test
    void itsSetupIsRead() throws IOException {
        Path setup = Files.writeString(folder.resolve("a.setup.json"), blockThatStarts("{"));
        assertEquals("Loader 7", SetupReader.read(setup).machine().orElseThrow());
    }

    @Test
    void itsPicturesAndDocumentsAreThere() throws IOException {
        String readme = Files.readString(README);
        for (int at = readme.indexOf("]("); at >= 0; at = readme.indexOf("](", at + 1)) {
            String target = readme.substring(at + 2, readme.indexOf(')', at));
            String[] fileAndPlace = target.split("#", 2);
            Path file = README.resolveSibling(fileAndPlace[0]);
            assertTrue(Files.exists(file), target);
            assertTrue(fileAndPlace.length == 1 || headings(file).contains(fileAndPlace[1]), target);
        }
    }

    /** The headings of a document as links name them: in small letters, without signs, hyphens for spaces. */
    private static List<String> headings(Path file) throws IOException {
        return Files.readAllLines(file).stream()
                .filter(line -> line.startsWith("#"))
                .map(line -> line.replaceFirst("^#+ ", "")
                        .toLowerCase(Locale.ROOT)
                        .replaceAll("[^\\p{L}\\p{N} -]", "")
                        .replace(' ', '-'))
                .toList();
    }
}
