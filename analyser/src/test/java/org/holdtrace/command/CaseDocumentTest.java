package org.holdtrace.command;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;

/** The story of {@code docs/case.md} is what the program prints; {@link CaseCommandTest} holds the prints to it. */
class CaseDocumentTest {
    private static final Pattern BLOCK = Pattern.compile("```text\n(.*?)```", Pattern.DOTALL);

    @Test
    void everyOutputInTheStoryIsPrintedSo() throws IOException {
        StringBuilder printed = new StringBuilder();
        for (int tests = 0; tests <= 4; tests++) {
            try (InputStream in = CaseDocumentTest.class.getResourceAsStream("/printed/case-" + tests + ".txt")) {
                printed.append(new String(in.readAllBytes(), StandardCharsets.UTF_8));
            }
        }
        Matcher block = BLOCK.matcher(Files.readString(Path.of("..", "docs", "case.md")));
        int blocks = 0;
        while (block.find()) {
            assertTrue(printed.indexOf(block.group(1)) >= 0, block.group(1));
            blocks++;
        }
        assertEquals(6, blocks);
    }
}
