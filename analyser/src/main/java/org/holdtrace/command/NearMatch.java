package org.holdtrace.command;

import java.util.Arrays;
import java.util.List;

/** Finds what somebody probably meant to type. */
final class NearMatch {
    private NearMatch() {}

    /** {@code "; did you mean X?"}, or nothing where no known word is near. */
    static String hint(String word, List<String> known) {
        String best = null;
        int bestDistance = Math.max(2, word.length() / 3) + 1;
        for (String candidate : known) {
            int distance = distance(word, candidate);
            if (distance < bestDistance) {
                best = candidate;
                bestDistance = distance;
            }
        }
        return best == null ? "" : "; did you mean " + best + "?";
    }

    /** Levenshtein distance: insertions, deletions and substitutions from one word to the other. */
    private static int distance(String a, String b) {
        int[] previous = new int[b.length() + 1];
        int[] current = new int[b.length() + 1];
        Arrays.setAll(previous, i -> i);
        for (int i = 1; i <= a.length(); i++) {
            current[0] = i;
            for (int j = 1; j <= b.length(); j++) {
                int substituted = previous[j - 1] + (a.charAt(i - 1) == b.charAt(j - 1) ? 0 : 1);
                current[j] = Math.min(substituted, Math.min(previous[j], current[j - 1]) + 1);
            }
            int[] swap = previous;
            previous = current;
            current = swap;
        }
        return previous[b.length()];
    }
}
