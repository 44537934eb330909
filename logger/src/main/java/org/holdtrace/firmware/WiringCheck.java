package org.holdtrace.firmware;

import java.io.IOException;
import java.io.PrintStream;
import java.net.InetAddress;
import java.nio.file.DirectoryIteratorException;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.holdtrace.adc.AdcException;
import org.holdtrace.adc.Ads1115;
import org.holdtrace.adc.CalibrationStore;
import org.holdtrace.adc.Converter;
import org.holdtrace.adc.ConverterPlan;
import org.holdtrace.adc.InputFault;
import org.holdtrace.adc.InputWatch;
import org.holdtrace.adc.SensorInput;
import org.holdtrace.adc.SteadyClock;
import org.holdtrace.adc.StoredCalibration;
import org.holdtrace.panel.GpioPanel;
import org.holdtrace.quantity.Unit;
import org.holdtrace.session.Calibration;
import org.holdtrace.session.ChannelKind;

/**
 * Looks, one after the other, whether all that a logger needs is there and allowed, reads every input once, and says what
 * is missing and what to do about it. Changes nothing.
 */
final class WiringCheck {
    private static final int READINGS = 50;
    private static final long BETWEEN_NS = 4_000_000;
    private static final long PROOF_AFTER_NS = 2_000_000_000;

    private final Configuration configuration;
    private final Path root;
    private final PrintStream out;
    private int missing;

    /** What opens the converter; asked once. */
    @FunctionalInterface
    interface Opener {
        /** The converter, to which nothing has been sent yet. */
        Converter open() throws AdcException;
    }

    /**
     * A check of what {@code configuration} names.
     *
     * @param root where the computer's files begin
     */
    WiringCheck(Configuration configuration, Path root, PrintStream out) {
        this.configuration = configuration;
        this.root = root;
        this.out = out;
    }

    /** Checks what the program was called with; false where something is missing. */
    @SuppressWarnings("try") // the lock is held, not spoken to
    static boolean run(Bench bench, PrintStream out) {
        Configuration configuration = bench.configuration();
        WiringCheck check = new WiringCheck(configuration, Path.of("/"), out);
        Path sessions = configuration.storage().sessions();
        // A folder that is not there, or not ours, is told of below.
        boolean ours = Files.isDirectory(sessions) && Files.isWritable(sessions);
        try (AutoCloseable held = ours ? DataFolder.take(sessions) : () -> {}) {
            return check.all(bench.isSimulated(), bench.clock(), bench::converter, said -> {
                if (configuration.panel() == Configuration.PanelKind.GPIO) {
                    GpioPanel.open(bench.board(), configuration.pins(), said::add)
                            .close();
                }
            });
        } catch (IOException e) {
            check.no("folder", e.getMessage() + "; two programs must not talk to one converter");
            return false;
        } catch (Exception e) {
            throw new IllegalStateException("the folder could not be given back", e);
        }
    }

    /** Tries the panel; what is absent is added to the list. */
    @FunctionalInterface
    interface PanelTrial {
        /** Opens and closes it. */
        void tryOut(List<String> said) throws AdcException;
    }

    /** All of it; false where something is missing. */
    boolean all(boolean simulated, SteadyClock clock, Opener opener, PanelTrial panel) {
        if (simulated || bus()) {
            converter(clock, opener);
        } else {
            // Asked all the same, libraries would answer in words of their own.
            no("converter", configuration.converter().name() + " was not asked: its bus cannot be used");
        }
        if (!simulated) {
            panel(panel);
            link();
        }
        folder("sessions", configuration.storage().sessions());
        folder("state", configuration.storage().state());
        out.println(
                missing == 0 ? "Nothing is missing." : missing + " missing; the first is often the cause of others.");
        return missing == 0;
    }

    private void yes(String what, String text) {
        out.println(line("ok", what, text));
    }

    private void doubt(String what, String text) {
        out.println(line("doubt", what, text));
    }

    private void no(String what, String text) {
        missing++;
        out.println(line("MISSING", what, text));
    }

    private static String line(String verdict, String what, String text) {
        return String.format(Locale.ROOT, "%-8s %-10s %s", verdict, what, text);
    }

    private boolean bus() {
        boolean i2c = configuration.converter() instanceof ConverterPlan.Ads;
        String device = configuration.converter() instanceof ConverterPlan.Ads ads
                ? "dev/i2c-" + ads.bus()
                : configuration.converter() instanceof ConverterPlan.Mcp mcp
                        ? "dev/spidev" + mcp.bus() + "." + mcp.chipSelect()
                        : "";
        Path path = root.resolve(device);
        String group = i2c ? "i2c" : "spi";
        if (!Files.exists(path)) {
            no(
                    "bus",
                    "no /" + device + ". Switch the bus on (raspi-config, Interface Options, or dtparam="
                            + (i2c ? "i2c_arm" : "spi") + "=on in /boot/firmware/config.txt) and start anew");
        } else if (!Files.isReadable(path) || !Files.isWritable(path)) {
            no("bus", "/" + device + " may not be used by this user. Add it to the group " + group);
        } else {
            yes("bus", "/" + device);
            return true;
        }
        return false;
    }

    private void converter(SteadyClock clock, Opener opener) {
        Converter converter;
        try {
            converter = opener.open();
        } catch (AdcException e) {
            no("converter", e.getMessage());
            return;
        }
        try (converter) {
            converter.restart();
            yes("converter", converter.name() + " answers as it should");
            double supply = supply(converter, clock);
            for (SensorInput input : configuration.inputs()) {
                input(converter, clock, input, supply);
            }
            if (configuration.converter() instanceof ConverterPlan.Ads ads
                    && ads.readyPin().isPresent()
                    && converter instanceof Ads1115 chip
                    && !chip.hearsReadyPin()) {
                doubt(
                        "ready pin",
                        "GPIO " + ads.readyPin().getAsInt() + " hears nothing from the converter's ALERT pin; reading"
                                + " goes by the clock");
            }
        } catch (AdcException e) {
            no("converter", e.getMessage());
        }
    }

    /** The supply as it is measured, V; as it should be where it is not. */
    private double supply(Converter converter, SteadyClock clock) throws AdcException {
        Optional<SensorInput> input = configuration.supplyInput();
        if (input.isEmpty()) {
            if (configuration.needsSupply()) {
                doubt("supply", "not measured: an error of it is as large an error of every ratiometric reading");
            }
            return configuration.supplyVolts();
        }
        double sum = 0;
        for (int i = 0; i < READINGS; i++) {
            sum += converter.read(input.get().pin());
            clock.waitNs(BETWEEN_NS);
        }
        double pinVolts = sum / READINGS * converter.voltsPerCount(input.get().pin());
        return SensorInput.believedSupplyVolts(
                input.get().signalSize(pinVolts, configuration.supplyVolts()), configuration.supplyVolts());
    }

    private void input(Converter converter, SteadyClock clock, SensorInput input, double supply) throws AdcException {
        List<String> faults = new ArrayList<>();
        InputWatch watch = new InputWatch(input, converter, configuration.supplyVolts(), new Collected(faults));
        watch.calibratedBy(supply);
        double sum = 0;
        double squares = 0;
        int first = converter.read(input.pin());
        for (int i = 0; i < READINGS; i++) {
            clock.waitNs(BETWEEN_NS);
            int count = converter.read(input.pin());
            watch.sample(clock.nanoTime(), count);
            sum += count - first;
            squares += (double) (count - first) * (count - first);
        }
        if (input.fast()) {
            watch.proved(clock.nanoTime() + PROOF_AFTER_NS, converter.follows(input.pin(), watch.code()));
        }
        double mean = first + sum / READINGS;
        double scatter = Math.sqrt(Math.max(0, squares / READINGS - (mean - first) * (mean - first)));
        if (faults.isEmpty()) {
            yes("input", words(converter, input, supply, mean, scatter));
        } else {
            for (String fault : faults) {
                no("input", fault + " (pin " + input.pin() + ")");
            }
        }
    }

    private String words(Converter converter, SensorInput input, double supply, double count, double scatter) {
        double pinVolts = count * converter.voltsPerCount(input.pin());
        String signal = input.signal().say(input.signalSize(pinVolts, supply));
        if (input.isSupply()) {
            return input.name() + " " + signal;
        }
        String calibrated = "name plate, never checked";
        Optional<StoredCalibration> stored = Optional.empty();
        try {
            Map<String, StoredCalibration> all =
                    new CalibrationStore(configuration.storage().state()).all();
            stored = Optional.ofNullable(all.get(input.name()));
            if (stored.isPresent()) {
                calibrated = stored.get().line().isPresent()
                        ? "calibrated "
                                + stored.get().date().map(Object::toString).orElse("nobody knows when")
                        : "zeroed, never checked";
            }
        } catch (IOException e) {
            no("calibration", e.getMessage());
        }
        Calibration calibration = input.calibration(converter.voltsPerCount(input.pin()), supply, stored);
        double si = calibration.atZeroCount() + count * calibration.perCount();
        boolean pressure = input.kind() == ChannelKind.PRESSURE || input.kind() == ChannelKind.SECOND_PRESSURE;
        Unit unit = pressure ? Unit.BAR : Unit.DEG_C;
        return String.format(
                Locale.ROOT,
                "%s %.2f %s, scatter %.3f (%s; %s)",
                input.name(),
                unit.fromSi(si),
                unit.symbol(),
                Math.abs(unit.differenceFromSi(scatter * calibration.perCount())),
                signal,
                calibrated);
    }

    private void panel(PanelTrial trial) {
        if (configuration.panel() == Configuration.PanelKind.GPIO && !hasPins()) {
            doubt("panel", "no lamps, no beeper, no button: this computer has no GPIO (no /dev/gpiochip…)");
            return;
        }
        List<String> said = new ArrayList<>();
        try {
            trial.tryOut(said);
        } catch (AdcException e) {
            said.add(e.getMessage());
        }
        if (said.isEmpty()) {
            yes("panel", configuration.panel().name().toLowerCase(Locale.ROOT));
        }
        // A logger works without a panel: what is absent may well be meant to be.
        said.forEach(text -> doubt("panel", text));
    }

    private boolean hasPins() {
        try (DirectoryStream<Path> chips = Files.newDirectoryStream(root.resolve("dev"), "gpiochip*")) {
            return chips.iterator().hasNext();
        } catch (IOException | DirectoryIteratorException e) {
            return false;
        }
    }

    private void link() {
        Configuration.Link link = configuration.link();
        if (link.serial().isPresent()) {
            Path device = Path.of(link.serial().get());
            if (Files.exists(device)) {
                yes("serial", device.toString());
            } else {
                doubt(
                        "serial",
                        device + " is not there; it is looked for again and again. For the USB gadget see"
                                + " docs/logger.md");
            }
        }
        if (link.tcpAddress().isPresent()) {
            boolean key = link.keyFile().filter(Files::isReadable).isPresent();
            if (key || isThisComputer(link.tcpAddress().get())) {
                yes("tcp", link.tcpAddress().get() + (key ? ", with a key" : ", this computer only"));
            } else {
                no("tcp", link.tcpAddress().get() + " is open to others and \"keyFile\" names no readable file");
            }
        }
    }

    private static boolean isThisComputer(String address) {
        try {
            return InetAddress.getByName(address).isLoopbackAddress();
        } catch (IOException e) {
            return false;
        }
    }

    private void folder(String what, Path folder) {
        try {
            Path there = folder.toAbsolutePath();
            while (there != null && !Files.isDirectory(there)) {
                there = there.getParent();
            }
            if (there == null || !Files.isWritable(there)) {
                no(what, folder + " cannot be written by this user");
                return;
            }
            long free = Files.getFileStore(there).getUsableSpace();
            String room = String.format(Locale.ROOT, "%s, %.1f GB free", folder, free / 1e9);
            if (free < configuration.storage().stopBelowBytes()) {
                no(what, room + ": too little to record");
            } else if (free < configuration.storage().warnBelowBytes()) {
                doubt(what, room + ": fetch sessions and make room");
            } else {
                yes(what, room);
            }
        } catch (IOException e) {
            no(what, folder + ": " + e.getMessage());
        }
    }

    /** Faults in words; doubts too, for here somebody looks. */
    private record Collected(List<String> texts) implements InputWatch.Listener {
        @Override
        public void raised(long timeNs, SensorInput input, InputFault fault, String text) {
            texts.add(text);
        }

        @Override
        public void cleared(long timeNs, SensorInput input, InputFault fault, String text) {
            // Once is enough.
        }
    }
}
