package org.holdtrace.remote;

import java.io.IOException;
import java.net.Inet4Address;
import java.net.InetAddress;
import java.net.NetworkInterface;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import javax.jmdns.JmDNS;
import javax.jmdns.ServiceEvent;
import javax.jmdns.ServiceInfo;
import javax.jmdns.ServiceListener;
import org.holdtrace.link.LinkLimits;

/**
 * Looks for loggers that announce themselves on the local network: DNS-SD (RFC 6763) over multicast DNS (RFC 6762). What
 * is announced is anybody's word: only names and addresses are taken from it, cut short; whether a logger is there shows
 * when it is reached.
 */
public final class NetworkLoggers implements AutoCloseable {
    /** What loggers announce themselves as. */
    public static final String SERVICE = LinkLimits.SERVICE_TYPE + ".local.";

    private static final String NAME = "name";
    private static final String VERSION = "version";
    private static final int LONGEST_WORD = 60;

    /**
     * A logger that said it is there.
     *
     * @param name what it is called; may be empty
     * @param version of the link it speaks; may be empty
     * @param address where it is reached, as {@link LoggerAddress#parse} reads it
     */
    public record Announced(String name, String version, String address) {}

    /** Who hears of loggers, on a thread of the search. */
    public interface Listener {
        /** One is there; told again when more of it is heard, such as its name. */
        void found(Announced logger);
    }

    private final List<JmDNS> searches;

    private NetworkLoggers(List<JmDNS> searches) {
        this.searches = searches;
    }

    /**
     * Looks on every network this computer is in until closed. Takes a second or so: not on the event thread.
     *
     * @throws IOException where there is none that takes multicast
     */
    public static NetworkLoggers look(Listener listener) throws IOException {
        List<InetAddress> own = new ArrayList<>();
        for (NetworkInterface each : Collections.list(NetworkInterface.getNetworkInterfaces())) {
            if (each.isUp() && !each.isLoopback() && !each.isPointToPoint() && each.supportsMulticast()) {
                firstAddress(each, own);
            }
        }
        if (own.isEmpty()) {
            throw new IOException("this computer is in no network in which loggers could be looked for");
        }
        return look(own, listener);
    }

    /** The same in the networks that this computer has {@code own} addresses in. */
    static NetworkLoggers look(List<InetAddress> own, Listener listener) throws IOException {
        List<JmDNS> searches = new ArrayList<>();
        IOException failed = null;
        for (InetAddress each : own) {
            try {
                JmDNS search = JmDNS.create(each);
                searches.add(search);
                search.addServiceListener(SERVICE, new Heard(listener));
            } catch (IOException e) {
                failed = e;
            }
        }
        if (searches.isEmpty() && failed != null) {
            throw failed;
        }
        return new NetworkLoggers(searches);
    }

    private static void firstAddress(NetworkInterface network, List<InetAddress> into) {
        List<InetAddress> addresses = Collections.list(network.getInetAddresses());
        addresses.stream()
                .filter(Inet4Address.class::isInstance)
                .findFirst()
                .or(() -> addresses.stream().findFirst())
                .ifPresent(into::add);
    }

    /** Ends the search. Takes a second or so: not on the event thread. */
    @Override
    public void close() throws IOException {
        for (JmDNS each : searches) {
            each.close();
        }
    }

    private record Heard(Listener listener) implements ServiceListener {
        @Override
        public void serviceAdded(ServiceEvent event) {
            // The name alone is heard first; where it is has to be asked for.
            event.getDNS().requestServiceInfo(event.getType(), event.getName());
        }

        @Override
        public void serviceRemoved(ServiceEvent event) {
            // Whoever chooses one that has gone is told that it cannot be reached.
        }

        @Override
        public void serviceResolved(ServiceEvent event) {
            ServiceInfo info = event.getInfo();
            String host = host(info);
            if (!host.isEmpty() && info.getPort() > 0 && info.getPort() <= 0xFFFF) {
                String port = info.getPort() == LinkLimits.DEFAULT_PORT ? "" : ":" + info.getPort();
                listener.found(new Announced(
                        word(info.getPropertyString(NAME)), word(info.getPropertyString(VERSION)), host + port));
            }
        }

        /** Numbers, since not every system looks names of the local network up. */
        private static String host(ServiceInfo info) {
            for (Inet4Address each : info.getInet4Addresses()) {
                return each.getHostAddress();
            }
            return info.getInet6Addresses().length > 0 ? "[" + info.getInet6Addresses()[0].getHostAddress() + "]" : "";
        }

        private static String word(String text) {
            if (text == null) {
                return "";
            }
            StringBuilder kept = new StringBuilder();
            text.codePoints()
                    .filter(each -> !Character.isISOControl(each))
                    .limit(LONGEST_WORD)
                    .forEach(kept::appendCodePoint);
            return kept.toString().strip();
        }
    }
}
