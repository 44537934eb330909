package org.holdtrace.remote;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.net.InetAddress;
import java.util.List;
import java.util.Map;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.TimeUnit;
import javax.jmdns.JmDNS;
import javax.jmdns.ServiceInfo;
import org.holdtrace.testdata.Multicast;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

/** Over the loopback of this computer, where it takes multicast. */
@Timeout(60)
class NetworkLoggersTest {
    private static final long LONGEST_S = 15;

    @Test
    void aLoggerThatAnnouncesItselfIsFoundWithItsNameVersionAndAddress() throws Exception {
        InetAddress here = InetAddress.getLoopbackAddress();
        BlockingQueue<NetworkLoggers.Announced> found = new LinkedBlockingQueue<>();
        try (JmDNS logger = Multicast.announcing(here)) {
            NetworkLoggers search = NetworkLoggers.look(List.of(here), found::add);
            try {
                logger.registerService(ServiceInfo.create(
                        NetworkLoggers.SERVICE,
                        "Holdtrace logger bench",
                        28_651,
                        0,
                        0,
                        Map.of("name", "bench\u0007 logger ", "version", "1.0")));
                NetworkLoggers.Announced heard = found.poll(LONGEST_S, TimeUnit.SECONDS);
                // Where it is may be heard before what it is called.
                while (heard != null && heard.name().isEmpty()) {
                    heard = found.poll(LONGEST_S, TimeUnit.SECONDS);
                }
                assumeTrue(heard != null, "skipped: multicast does not come back over this computer's loopback");
                assertEquals(new NetworkLoggers.Announced("bench logger", "1.0", "127.0.0.1:28651"), heard);
                assertEquals(new LoggerAddress.Tcp("127.0.0.1", 28_651), LoggerAddress.parse(heard.address(), 115_200));
            } finally {
                search.close();
            }
        }
    }
}
