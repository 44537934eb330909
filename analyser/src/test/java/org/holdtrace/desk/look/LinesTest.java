package org.holdtrace.desk.look;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.Font;
import java.awt.FontMetrics;
import java.awt.image.BufferedImage;
import java.util.List;
import org.junit.jupiter.api.Test;

class LinesTest {
    private final FontMetrics metrics = new BufferedImage(1, 1, BufferedImage.TYPE_INT_RGB)
            .createGraphics()
            .getFontMetrics(new Font(Font.MONOSPACED, Font.PLAIN, 12));

    /** So many letters of a font whose letters are all as wide. */
    private List<String> inLettersPerLine(String words, int letters) {
        return Lines.wrapped(words, metrics, letters * metrics.charWidth('m'));
    }

    @Test
    void wordsWrapBehindSpacesAndHyphensAndLongOnesAnywhere() {
        assertEquals(List.of("all of it"), inLettersPerLine("all of it", 9));
        assertEquals(List.of("all of", "it"), inLettersPerLine("all of it", 8));
        assertEquals(List.of("02-bramble-", "bucket.hold"), inLettersPerLine("02-bramble-bucket.hold", 12));
        assertEquals(List.of("abcde", "fghij", "kl"), inLettersPerLine("abcdefghijkl", 5));
        assertEquals(List.of("a", "b"), inLettersPerLine("ab", 0), "a letter a line where there is no room at all");
        assertEquals(List.of(""), inLettersPerLine("", 5));
    }

    @Test
    void nothingIsLostAndMarkupIsNoMarkup() {
        String words = "<html><b>Arm section with its port relief</b> - port B";
        for (int letters = 1; letters < 60; letters++) {
            List<String> lines = inLettersPerLine(words, letters);
            assertEquals(words.replace(" ", ""), String.join("", lines).replace(" ", ""));
            int most = letters;
            assertTrue(lines.stream().allMatch(each -> each.length() <= most), lines.toString());
        }
    }
}
