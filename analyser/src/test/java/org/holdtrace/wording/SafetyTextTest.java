package org.holdtrace.wording;

import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.Test;

class SafetyTextTest {
    /** What the README says, without its marks of emphasis and on one line. */
    private static String readme() throws IOException {
        return Files.readString(Path.of("..", "README.md")).replace("*", "").replaceAll("\\s+", " ");
    }

    @Test
    void theReadmeSaysTheSameWordForWord() throws IOException {
        String readme = readme();
        List<String> sentences = new ArrayList<>(SafetyText.RULES);
        sentences.add(SafetyText.FIRST);
        sentences.add(SafetyText.LAST);
        for (String sentence : sentences) {
            assertTrue(readme.contains(sentence), "not in the README: " + sentence);
        }
    }

    @Test
    void everyCautionOfTheTradeIsAmongThem() {
        String all = String.join(" ", SafetyText.RULES) + " " + SafetyText.FIRST;
        for (String caution : List.of(
                "lock it out",
                "raised",
                "maker's procedure",
                "nothing is started",
                "open line",
                "surgical emergency",
                "rated above",
                "home-modified",
                "lowest rating",
                "local codes",
                "licensed practice")) {
            assertTrue(all.toLowerCase(Locale.ROOT).contains(caution), caution);
        }
    }
}
