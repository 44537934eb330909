package org.holdtrace.firmware;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.Optional;
import org.holdtrace.link.LinkLimits;
import org.holdtrace.link.Versions;

/**
 * What lets a logger be found on a network: the description of its service (DNS-SD, RFC 6763) in the words of the Avahi
 * daemon, avahi.service(5), which Raspberry Pi OS runs anyway and which answers for it. It is left in the service's run-time
 * folder; the logger's own user may not hand it to the daemon, the service manager does.
 */
final class Announcement {
    /** Its name in the run-time folder. */
    static final String FILE = "avahi.service";

    /** Longest name of a service, and longest text beside it, bytes (RFC 6763, 4.1.1 and 6.1). */
    private static final int LONGEST_NAME = 63;

    private static final int LONGEST_TEXT = 255;

    private final Path file;

    private Announcement(Path file) {
        this.file = file;
    }

    /** That of a service manager's run-time folder; empty where there is none. */
    static Optional<Announcement> ofSystemd() {
        return of(System.getenv("RUNTIME_DIRECTORY"));
    }

    /** That of the first of some folders with colons between, or empty for null. */
    static Optional<Announcement> of(String folders) {
        if (folders == null || folders.isEmpty()) {
            return Optional.empty();
        }
        int colon = folders.indexOf(':');
        return Optional.of(new Announcement(
                Path.of(colon < 0 ? folders : folders.substring(0, colon)).resolve(FILE)));
    }

    /** Describes the logger {@code name}, which listens on {@code port}. */
    void write(String name, int port) throws IOException {
        Path next = file.resolveSibling(FILE + ".new");
        Files.writeString(next, text(name, port));
        Files.move(next, file, StandardCopyOption.ATOMIC_MOVE);
    }

    /** Nobody from outside can connect: nothing is described. */
    void clear() throws IOException {
        Files.deleteIfExists(file);
    }

    static String text(String name, int port) {
        return """
                <?xml version="1.0" standalone="no"?>
                <!DOCTYPE service-group SYSTEM "avahi-service.dtd">
                <service-group>
                  <name replace-wildcards="no">%s</name>
                  <service>
                    <type>%s</type>
                    <port>%d</port>
                    <txt-record>name=%s</txt-record>
                    <txt-record>version=%d</txt-record>
                  </service>
                </service-group>
                """.formatted(
                        xml(clip(name, LONGEST_NAME)),
                        LinkLimits.SERVICE_TYPE,
                        port,
                        xml(clip(name, LONGEST_TEXT - "name=".length())),
                        Versions.OURS.highest());
    }

    /** So much of {@code name} from its beginning as takes at most {@code bytes} in UTF-8, in whole characters. */
    private static String clip(String name, int bytes) {
        int end = 0;
        int taken = 0;
        while (end < name.length()) {
            int next = name.offsetByCodePoints(end, 1);
            taken += name.substring(end, next).getBytes(StandardCharsets.UTF_8).length;
            if (taken > bytes) {
                break;
            }
            end = next;
        }
        return name.substring(0, end);
    }

    private static String xml(String text) {
        StringBuilder escaped = new StringBuilder();
        text.codePoints().forEach(c -> {
            switch (c) {
                case '<' -> escaped.append("&lt;");
                case '>' -> escaped.append("&gt;");
                case '&' -> escaped.append("&amp;");
                default -> escaped.appendCodePoint(c < ' ' || c == 0xFFFE || c == 0xFFFF ? ' ' : c);
            }
        });
        return escaped.toString();
    }
}
