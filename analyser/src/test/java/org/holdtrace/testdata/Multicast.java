package org.holdtrace.testdata;

import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.net.InetAddress;
import javax.jmdns.JmDNS;

/** Announcements on the network of this computer, for tests of who listens to them. */
public final class Multicast {
    private Multicast() {}

    /** Announces from {@code here}; the test is skipped where that cannot be. */
    public static JmDNS announcing(InetAddress here) {
        try {
            return JmDNS.create(here, "bench");
        } catch (IOException e) {
            assumeTrue(false, "skipped: no multicast on this computer: " + e.getMessage());
            throw new AssertionError(e);
        }
    }
}
