package org.holdtrace.report;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.util.HexFormat;
import org.holdtrace.session.Sha256;

/**
 * By what a file can be told from any other, years later.
 *
 * @param name without its folder
 * @param bytes its length
 * @param sha256 SHA-256 (FIPS 180-4) of its content, hexadecimal
 */
public record FileProof(String name, long bytes, String sha256) {
    private static final int BLOCK = 1 << 16;

    /** Reads {@code file} through. */
    public static FileProof of(Path file) throws IOException {
        MessageDigest digest = Sha256.begin();
        long bytes = 0;
        byte[] block = new byte[BLOCK];
        try (InputStream in = Files.newInputStream(file)) {
            for (int n = in.read(block); n >= 0; n = in.read(block)) {
                digest.update(block, 0, n);
                bytes += n;
            }
        }
        return new FileProof(
                file.getFileName().toString(), bytes, HexFormat.of().formatHex(digest.digest()));
    }
}
