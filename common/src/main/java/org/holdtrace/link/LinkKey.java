package org.holdtrace.link;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.GeneralSecurityException;
import java.security.MessageDigest;
import java.util.Arrays;
import javax.crypto.Mac;
import javax.crypto.spec.SecretKeySpec;
import org.holdtrace.session.InputException;

/**
 * A secret that a logger and its users share. It never goes over the wire: each end proves that it has it by an
 * HMAC-SHA256 (RFC 2104, FIPS 198-1) over what the other end has chosen at random.
 */
public final class LinkKey {
    /** Shorter secrets can be guessed from a recorded conversation. */
    public static final int SHORTEST_BYTES = 16;

    private static final int LONGEST_BYTES = 4096;
    private static final String ALGORITHM = "HmacSHA256";

    private final byte[] secret;

    private LinkKey(byte[] secret) {
        this.secret = secret;
    }

    /**
     * The key in {@code file}: all its bytes, less spaces and ends of line at its end, so that a key written with an
     * editor is the same.
     *
     * @throws InputException where it is shorter than 16 or longer than 4096 bytes
     */
    public static LinkKey read(Path file) throws IOException {
        if (Files.size(file) > LONGEST_BYTES) {
            throw wrong(file, Files.size(file));
        }
        byte[] bytes = Files.readAllBytes(file);
        int length = bytes.length;
        while (length > 0 && (bytes[length - 1] == '\n' || bytes[length - 1] == '\r' || bytes[length - 1] == ' ')) {
            length--;
        }
        if (length < SHORTEST_BYTES) {
            throw wrong(file, length);
        }
        return of(Arrays.copyOf(bytes, length));
    }

    private static InputException wrong(Path file, long length) {
        return new InputException(
                file.toString(),
                "",
                "a key of " + length + " bytes",
                "a secret of " + SHORTEST_BYTES + " to " + LONGEST_BYTES + " bytes; docs/link.md says how to make one");
    }

    /** The key of those bytes. */
    public static LinkKey of(byte[] secret) {
        if (secret.length < SHORTEST_BYTES || secret.length > LONGEST_BYTES) {
            throw new IllegalArgumentException("a key of " + secret.length + " bytes");
        }
        return new LinkKey(secret.clone());
    }

    /** What the client answers to {@code challenge}. */
    public byte[] clientProof(byte[] nonce, byte[] challenge) {
        return proof("holdtrace link client", nonce, challenge);
    }

    /** What the logger answers to the client's proof; another word, so that neither can be sent back as the other. */
    public byte[] loggerProof(byte[] nonce, byte[] challenge) {
        return proof("holdtrace link logger", nonce, challenge);
    }

    private byte[] proof(String who, byte[] nonce, byte[] challenge) {
        try {
            Mac mac = Mac.getInstance(ALGORITHM);
            mac.init(new SecretKeySpec(secret, ALGORITHM));
            mac.update(who.getBytes(StandardCharsets.US_ASCII));
            mac.update((byte) 0);
            mac.update(nonce);
            mac.update(challenge);
            return mac.doFinal();
        } catch (GeneralSecurityException e) {
            throw new IllegalStateException("every Java has " + ALGORITHM, e);
        }
    }

    /** Compares without telling by its time how much is equal. */
    public static boolean same(byte[] a, byte[] b) {
        return MessageDigest.isEqual(a, b);
    }
}
