package org.holdtrace.quantity;

import java.util.Collection;
import java.util.Locale;
import java.util.Optional;

/** Finds the known word that a misspelt one was probably meant to be. */
public final class NearMatch {
    private NearMatch() {}

    /**
     * The known word closest to {@code word}: at most one edit (letter put in, left out, changed or two neighbours
     * swapped) for every three letters, and at least one; a difference in case alone counts nothing.
     */
    public static Optional<String> of(String word, Collection<String> known) {
        String best = null;
        int bestEdits = Math.max(1, word.length() / 3) + 1;
        for (String candidate : known) {
            int edits = edits(word.toLowerCase(Locale.ROOT), candidate.toLowerCase(Locale.ROOT));
            if (edits < bestEdits && edits < candidate.length()) {
                best = candidate;
                bestEdits = edits;
            }
        }
        return Optional.ofNullable(best);
    }

    /** What was expected in place of {@code word}, for messages: the near word as a question, else all of them. */
    public static String expected(String word, Collection<String> known) {
        return of(word, known).map(near -> "\"" + near + "\"?").orElse("one of " + String.join(", ", known));
    }

    /** Optimal string alignment distance. */
    static int edits(String a, String b) {
        int[][] d = new int[a.length() + 1][b.length() + 1];
        for (int i = 0; i <= a.length(); i++) {
            for (int j = 0; j <= b.length(); j++) {
                if (i == 0 || j == 0) {
                    d[i][j] = i + j;
                    continue;
                }
                int change = a.charAt(i - 1) == b.charAt(j - 1) ? 0 : 1;
                d[i][j] = Math.min(Math.min(d[i - 1][j], d[i][j - 1]) + 1, d[i - 1][j - 1] + change);
                if (i > 1 && j > 1 && a.charAt(i - 1) == b.charAt(j - 2) && a.charAt(i - 2) == b.charAt(j - 1)) {
                    d[i][j] = Math.min(d[i][j], d[i - 2][j - 2] + 1);
                }
            }
        }
        return d[a.length()][b.length()];
    }
}
