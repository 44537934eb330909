package org.holdtrace.session;

import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;

/** SHA-256 (FIPS 180-4), which tells files apart and shows that a copy is whole. */
public final class Sha256 {
    private Sha256() {}

    /** A digest that nothing was put into yet. */
    public static MessageDigest begin() {
        try {
            return MessageDigest.getInstance("SHA-256");
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException("every Java has SHA-256", e);
        }
    }
}
