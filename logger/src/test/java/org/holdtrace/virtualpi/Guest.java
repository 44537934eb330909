package org.holdtrace.virtualpi;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import java.util.function.BooleanSupplier;

/** The emulated Pi while it runs: what is done to it from outside, and what is seen. */
final class Guest implements AutoCloseable {
    static final String ADS = "/sys/kernel/debug/ads1115-sim/";
    private static final String PINS = "/sys/kernel/debug/gpio-pinsim/";
    private static final Path TOOLS = Path.of("src", "virtual-pi").toAbsolutePath();
    /** Longer than the busiest computer takes: what is waited for is the logger, not this. */
    private static final int BOOT_S = 600;

    private static final int NO_ANSWER = 97;
    private static final int MOST_TRIES = 3;

    private final Path share;
    private final Process machine;

    private Guest(Path share, Process machine) {
        this.share = share;
        this.machine = machine;
    }

    /**
     * Switches the machine on; it runs {@code run.sh} of the shared folder.
     *
     * @param built folder of the built guest
     * @param share folder that the guest sees as {@code /share}
     * @param card image of the file system at {@code /data}
     * @param options for the modules, such as {@code ADS=rdy=4}
     */
    static Guest boot(Path built, Path share, Path card, Map<String, String> options) throws IOException {
        ProcessBuilder builder =
                new ProcessBuilder(TOOLS.resolve("run-guest.sh").toString(), built.toString(), share.toString(), "900");
        builder.environment().putAll(options);
        builder.environment().put("DATA", card.toString());
        builder.redirectErrorStream(true)
                .redirectOutput(share.resolve("machine.txt").toFile());
        return new Guest(share, builder.start());
    }

    /** The analyser's end of the USB cable. */
    Path usb() {
        return share.resolve("usb");
    }

    Path file(String name) {
        return share.resolve(name);
    }

    /** What a file of the shared folder says now; empty where it is not there. */
    String said(String name) {
        try {
            return Files.readString(file(name));
        } catch (IOException e) {
            return "";
        }
    }

    void await(String what, int seconds, BooleanSupplier until) throws InterruptedException {
        long endNs = System.nanoTime() + TimeUnit.SECONDS.toNanos(seconds);
        while (!until.getAsBoolean()) {
            if (System.nanoTime() - endNs > 0 || !machine.isAlive()) {
                throw new AssertionError("waited in vain for: " + what + (machine.isAlive() ? "" : " (machine is off)")
                        + "\n" + said("logger.txt") + said("console.log") + said("machine.txt") + said("qemu.log"));
            }
            Thread.sleep(100);
        }
    }

    /** The logger was started and says that it is at work. */
    void awaitLogger() throws InterruptedException {
        await("the logger at work", BOOT_S, () -> said("logger.txt").contains("link on"));
    }

    /** Runs a command in the guest. */
    String shell(String command) throws IOException, InterruptedException {
        for (int i = 1; ; i++) {
            Process process = new ProcessBuilder(TOOLS.resolve("ctl.sh").toString(), share.toString(), command)
                    .redirectErrorStream(true)
                    .start();
            String said = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
            int status = process.waitFor();
            if (status == 0) {
                return said;
            }
            // The line to the guest is no part of what is tested: asked again. All commands here may come twice.
            if (status != NO_ANSWER || i == MOST_TRIES) {
                throw new IOException(command + ": status " + status + " " + said);
            }
        }
    }

    /** Sets one of the converter model's switches. */
    void converter(String name, long value) throws IOException, InterruptedException {
        shell("echo " + value + " > " + ADS + name);
    }

    /** When a switch of the converter was last set, ns on the guest's steady clock. */
    long setAtNs(String name) throws IOException, InterruptedException {
        for (String line : shell("cat " + ADS + "marks").lines().toList()) {
            if (line.startsWith(name + " ")) {
                return Long.parseLong(line.substring(name.length() + 1).trim());
            }
        }
        throw new IOException("the converter has no switch " + name);
    }

    /** Drives a pin from outside: {@code 0}, {@code 1}, or {@code z} to let it go. */
    void pin(int gpio, char level) throws IOException, InterruptedException {
        shell("echo " + gpio + " " + level + " > " + PINS + "drive");
    }

    /** Guest's steady clock, ns; read to 10 ms. */
    long nowNs() throws IOException, InterruptedException {
        String uptime = shell("cat /proc/uptime");
        return Math.round(Double.parseDouble(uptime.substring(0, uptime.indexOf(' '))) * 1e9);
    }

    /** All that the outputs have done. */
    Lamps lamps() throws IOException, InterruptedException {
        List<Lamps.Change> changes = new ArrayList<>();
        for (String line : shell("cat " + PINS + "log").lines().toList()) {
            String[] words = line.trim().split(" ", -1);
            if (words.length == 3) {
                changes.add(
                        new Lamps.Change(Long.parseLong(words[0]), Integer.parseInt(words[1]), words[2].equals("1")));
            }
        }
        return new Lamps(changes);
    }

    /** A command for QEMU's monitor. */
    void monitor(String command) throws IOException, InterruptedException {
        Process process = new ProcessBuilder("socat", "-", "UNIX-CONNECT:" + share.resolve("mon"))
                .redirectErrorStream(true)
                .start();
        try (var to = process.getOutputStream()) {
            to.write((command + "\n").getBytes(StandardCharsets.UTF_8));
        }
        process.getInputStream().readAllBytes();
        process.waitFor();
    }

    void pullCable() throws IOException, InterruptedException {
        monitor("device_del usb0");
    }

    void putCableIn() throws IOException, InterruptedException {
        monitor("device_add usb-serial,chardev=usb,id=usb0,always-plugged=on");
    }

    /** The power fails. */
    void cutPower() throws IOException, InterruptedException {
        monitor("quit");
        if (!machine.waitFor(30, TimeUnit.SECONDS)) {
            throw new IOException("the machine runs on without power");
        }
    }

    /** Ends the logger as a service manager does, and waits until the machine is off. */
    void shutDown() throws IOException, InterruptedException {
        shell("kill $(pidof java)");
        if (!machine.waitFor(90, TimeUnit.SECONDS)) {
            throw new IOException("the logger does not end\n" + said("console.log"));
        }
    }

    @Override
    public void close() {
        machine.destroy(); // its trap ends QEMU
        machine.onExit().join();
    }
}
