package org.holdtrace.record;

import java.io.IOException;
import java.nio.file.DirectoryIteratorException;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Names of session files: a number that grows with every session of this logger, and before it the date where the clock
 * can be believed, {@code 2026-11-25-0042.hold}, {@code undated-0043.hold}. What continues a session has a letter behind
 * it. The number alone keeps the order where the clock does not.
 */
public final class SessionNames {
    /** What every session file ends in. */
    public static final String SUFFIX = ".hold";

    private static final Pattern NAME =
            Pattern.compile("(?:\\d{4}-\\d\\d-\\d\\d|undated)-(\\d{4,9})([a-z]*)\\.hold", Pattern.CASE_INSENSITIVE);
    private static final DateTimeFormatter DATE =
            DateTimeFormatter.ofPattern("uuuu-MM-dd", Locale.ROOT).withZone(ZoneOffset.UTC);

    private int next;

    /** Numbers go on from {@code next}. */
    SessionNames(int next) {
        this.next = next;
    }

    /** Names that go on from those in {@code folder}. */
    public static SessionNames in(Path folder) throws IOException {
        int highest = 0;
        try (DirectoryStream<Path> files = Files.newDirectoryStream(folder, "*" + SUFFIX)) {
            for (Path file : files) {
                highest = Math.max(highest, number(file.getFileName().toString()));
            }
        } catch (DirectoryIteratorException e) {
            throw e.getCause();
        }
        return new SessionNames(highest + 1);
    }

    /** The number in a name; 0 where it is none of ours. */
    static int number(String name) {
        Matcher matcher = NAME.matcher(name);
        return matcher.matches() ? Integer.parseInt(matcher.group(1)) : 0;
    }

    /**
     * A name not given before.
     *
     * @param now empty where the clock cannot be believed
     */
    synchronized String next(Optional<Instant> now) {
        return String.format(Locale.ROOT, "%s-%04d%s", now.map(DATE::format).orElse("undated"), next++, SUFFIX);
    }

    /** The name of what continues {@code name}: {@code …-0042.hold}, {@code …-0042b.hold}, {@code …-0042c.hold}. */
    static String continuing(String name) {
        String stem = name.substring(0, name.length() - SUFFIX.length());
        char last = stem.charAt(stem.length() - 1);
        if (last >= 'b' && last < 'z') {
            return stem.substring(0, stem.length() - 1) + (char) (last + 1) + SUFFIX;
        }
        return stem + 'b' + SUFFIX;
    }

    /** Order of recording: by number, then by letter. */
    public static int compare(String a, String b) {
        int byNumber = Integer.compare(number(a), number(b));
        return byNumber != 0 ? byNumber : a.compareTo(b);
    }
}
