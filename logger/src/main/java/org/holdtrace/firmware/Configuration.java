package org.holdtrace.firmware;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import org.holdtrace.adc.ConverterPlan;
import org.holdtrace.adc.SensorInput;
import org.holdtrace.adc.Signal;
import org.holdtrace.link.LinkLimits;
import org.holdtrace.panel.PanelPins;
import org.holdtrace.session.ChannelKind;
import org.holdtrace.session.InputException;
import org.holdtrace.session.JsonFields;

/**
 * How a logger is wired and where it keeps its things: {@code /etc/holdtrace/logger.json}, all of whose keys stand in
 * {@code docs/logger.md}.
 *
 * @param instrument its name, as it stands in sessions
 * @param rateHz samples a second of the fast inputs, 50 to 860
 * @param converter which one is wired where
 * @param inputs what is wired to it; the first is the pressure under test, the supply is last where it is measured
 * @param supplyVolts what the transducers should get, V
 * @param slowEveryS how often each slow input is read, s
 * @param panel what the panel is
 * @param pins where it is wired
 * @param storage where things are kept
 * @param habits when sessions begin and end by themselves
 * @param link how the logger is reached
 */
public record Configuration(
        String instrument,
        double rateHz,
        ConverterPlan converter,
        List<SensorInput> inputs,
        double supplyVolts,
        double slowEveryS,
        PanelKind panel,
        PanelPins pins,
        Storage storage,
        Habits habits,
        Link link) {
    /** Where the file is unless told otherwise. */
    public static final Path USUAL_FILE = Path.of("/etc/holdtrace/logger.json");

    public Configuration {
        inputs = List.copyOf(inputs);
    }

    /** What shows the signs. */
    public enum PanelKind {
        GPIO,
        TERMINAL,
        NONE
    }

    /**
     * Where things are kept.
     *
     * @param sessions folder of the sessions
     * @param state folder of the calibration
     * @param warnBelowBytes less room on the disk than this is told
     * @param stopBelowBytes with less than this nothing is recorded any more
     */
    public record Storage(Path sessions, Path state, long warnBelowBytes, long stopBelowBytes) {}

    /**
     * When sessions begin and end by themselves.
     *
     * @param beginOnRise whether one begins when pressure first rises
     * @param secondsBefore what was sampled so long before is in it, s
     * @param endsAfterRestS one ends when the line was at rest so long after a hold test, s
     */
    public record Habits(boolean beginOnRise, double secondsBefore, double endsAfterRestS) {}

    /**
     * How the logger is reached.
     *
     * @param serial device of the serial gadget or port; empty for none
     * @param baud its speed, bits a second; meaningless on a USB gadget
     * @param tcpAddress where to listen; empty for nowhere
     * @param tcpPort port there; empty for the usual one
     * @param keyFile file of the shared key, without which only this computer itself is listened to
     */
    public record Link(
            Optional<String> serial,
            int baud,
            Optional<String> tcpAddress,
            OptionalInt tcpPort,
            Optional<Path> keyFile) {}

    /**
     * Reads the configuration in {@code file}.
     *
     * @throws InputException where it cannot be used; its message has one line for each problem
     * @throws IOException where it cannot be read
     */
    public static Configuration read(Path file) throws IOException {
        return parse(Files.readAllBytes(file), file.toString());
    }

    /** Reads it from UTF-8 JSON; {@code name} stands for the file in messages. */
    static Configuration parse(byte[] utf8, String name) throws InputException {
        return JsonFields.read(utf8, name, ConfigurationReader.EXAMPLE, ConfigurationReader::read);
    }

    /**
     * What the firmware runs by on a simulated line: a ratiometric transducer and its supply on an ADS1115, the panel on
     * the terminal, nothing listened to.
     *
     * @param name of the rig
     * @param toPa upper end of its transducer, Pa
     * @param folder for sessions and calibration
     */
    public static Configuration simulated(String name, double rateHz, double toPa, Path folder) {
        List<SensorInput> inputs = new ArrayList<>();
        inputs.add(new SensorInput("pressure", ChannelKind.PRESSURE, 0, Signal.Ratiometric.common(), 1, 0, toPa, true));
        inputs.add(SensorInput.supply(1, 1, SensorInput.NOMINAL_SUPPLY_VOLTS));
        return new Configuration(
                name,
                rateHz,
                new ConverterPlan.Ads(1, 0x48, OptionalInt.empty()),
                inputs,
                SensorInput.NOMINAL_SUPPLY_VOLTS,
                ConfigurationReader.SLOW_EVERY_S,
                PanelKind.TERMINAL,
                PanelPins.usual(),
                new Storage(folder, folder, ConfigurationReader.WARN_BYTES, ConfigurationReader.STOP_BYTES),
                ConfigurationReader.USUAL_HABITS,
                new Link(
                        Optional.empty(),
                        LinkLimits.USUAL_BAUD,
                        Optional.empty(),
                        OptionalInt.empty(),
                        Optional.empty()));
    }

    /** The same, with sessions and calibration kept in {@code folder}. */
    Configuration in(Path folder) {
        Storage there = new Storage(folder, folder, storage.warnBelowBytes, storage.stopBelowBytes);
        return new Configuration(
                instrument, rateHz, converter, inputs, supplyVolts, slowEveryS, panel, pins, there, habits, link);
    }

    /** The input of the transducers' supply, where it is measured. */
    public Optional<SensorInput> supplyInput() {
        return inputs.stream().filter(SensorInput::isSupply).findFirst();
    }

    /** Whether any transducer's signal is a share of the supply. */
    public boolean needsSupply() {
        return inputs.stream().anyMatch(input -> input.signal().needsSupply());
    }
}
