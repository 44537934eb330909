package org.holdtrace.firmware;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.holdtrace.adc.InputFault;
import org.junit.jupiter.api.Test;

/** What stands in the logger's document is so. */
class LoggerDocumentTest {
    private static final Pattern KEY_CALLS = Pattern.compile(
            "(?:text|quantity|optional|whole|choice|pin|has|flag|object|list)\\((?:\\w+, )?\"([a-zA-Z]+)\"");

    private static String document() throws IOException {
        return Files.readString(Path.of("..", "docs", "logger.md"));
    }

    @Test
    void everyExampleOfAConfigurationCanBeRead() throws IOException {
        Matcher examples = Pattern.compile("```json\n(.*?)```", Pattern.DOTALL).matcher(document());
        List<Configuration> read = new ArrayList<>();
        while (examples.find()) {
            read.add(Configuration.parse(examples.group(1).getBytes(StandardCharsets.UTF_8), "example"));
        }
        assertEquals(2, read.size());
        assertEquals(4, read.get(1).inputs().size());
    }

    @Test
    void theConfigurationThatIsInstalledCanBeRead() throws IOException {
        Configuration installed = Configuration.read(Path.of("src", "install", "logger.json"));
        assertEquals(0.6, installed.inputs().get(0).dividerShare(), 1e-12);
        assertEquals(0.6, installed.supplyInput().orElseThrow().dividerShare(), 1e-12);
    }

    @Test
    void everyKeyOfTheReaderHasItsLineInTheTable() throws IOException {
        String source = Files.readString(
                Path.of("src", "main", "java", "org", "holdtrace", "firmware", "ConfigurationReader.java"));
        Set<String> keys = new TreeSet<>();
        Matcher calls = KEY_CALLS.matcher(source.replaceAll("\\s+", " ").replace("( ", "("));
        while (calls.find()) {
            keys.add(calls.group(1));
        }
        assertTrue(keys.size() > 40, "found " + keys);
        String table = document();
        for (String key : keys) {
            boolean has = table.contains("`" + key + "`")
                    || table.contains("." + key + "`")
                    || table.contains("`" + key + ".")
                    || table.contains("`" + key + "[]");
            assertTrue(has, key + " is not in docs/logger.md");
        }
    }

    @Test
    void everyFaultHasItsLineInTheTable() throws IOException {
        for (InputFault fault : InputFault.values()) {
            assertTrue(document().contains("| `" + fault.label() + "` |"), fault.label());
        }
    }
}
