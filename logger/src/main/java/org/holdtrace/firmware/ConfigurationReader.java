package org.holdtrace.firmware;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import org.holdtrace.adc.ConverterPlan;
import org.holdtrace.adc.SensorInput;
import org.holdtrace.adc.Signal;
import org.holdtrace.link.LinkLimits;
import org.holdtrace.panel.PanelPins;
import org.holdtrace.quantity.Dimension;
import org.holdtrace.quantity.NearMatch;
import org.holdtrace.session.ChannelKind;
import org.holdtrace.session.JsonFields;

/** From the fields of the configuration file to a configuration. Names, meanings, defaults: {@code docs/logger.md}. */
final class ConfigurationReader {
    static final String EXAMPLE =
            "a configuration as in docs/logger.md, at least { \"inputs\": [ { \"to\": \"250 bar\" } ] }";
    /** What is expected of an object whose values do not go together. */
    private static final String POSSIBLE = "wiring that can be";

    static final double SLOW_EVERY_S = 1;
    static final long WARN_BYTES = 500_000_000;
    static final long STOP_BYTES = 50_000_000;
    static final Configuration.Habits USUAL_HABITS = new Configuration.Habits(true, 5, 60);

    private static final double LOWEST_RATE_HZ = 50;
    private static final double HIGHEST_RATE_HZ = 860;
    private static final double USUAL_RATE_HZ = 250;
    private static final String STATE = "/var/lib/holdtrace";
    private static final int ADDRESS = 0x48;
    private static final int SPI_CLOCK_HZ = 1_000_000;
    private static final double REFERENCE_VOLTS = 3.3;
    private static final int CONVERSIONS = 16;
    private static final double PT1000_SERIES_OHMS = 10_000;
    private static final int MEGABYTE = 1_000_000;

    private static final List<ChannelKind> MEASURED = List.of(
            ChannelKind.PRESSURE,
            ChannelKind.SECOND_PRESSURE,
            ChannelKind.OIL_TEMPERATURE,
            ChannelKind.AMBIENT_TEMPERATURE);

    private ConfigurationReader() {}

    /** The configuration; only of use where no problem was noted. Null where parts are missing. */
    static Configuration read(JsonFields root) {
        String instrument = root.text("instrument", "logger");
        double rateHz = root.quantity("rate", Dimension.FREQUENCY, USUAL_RATE_HZ);
        if (!(rateHz >= LOWEST_RATE_HZ && rateHz <= HIGHEST_RATE_HZ)) {
            root.problem("rate", rateHz + " Hz", "a rate from 50 to 860 Hz");
        }
        double slowEveryS = root.quantity("slowInputsEvery", Dimension.TIME, SLOW_EVERY_S);
        if (!(slowEveryS >= 0.1 && slowEveryS <= 60)) {
            root.problem("slowInputsEvery", slowEveryS + " s", "from 0.1 to 60 s");
        }
        ConverterPlan converter = part(root.object("converter"), ConfigurationReader::converter);
        JsonFields supply = root.object("supply");
        double supplyVolts = supply.quantity("nominal", Dimension.VOLTAGE, SensorInput.NOMINAL_SUPPLY_VOLTS);
        List<SensorInput> inputs = inputs(root, supplyVolts);
        if (converter != null) {
            addSupply(supply, inputs, supplyVolts);
            checkPins(root, converter, inputs, supplyVolts);
        }
        supply.finish();
        JsonFields panel = root.object("panel");
        Configuration.PanelKind kind = panelKind(panel);
        PanelPins pins = part(panel, ConfigurationReader::pins);
        if (converter instanceof ConverterPlan.Ads ads && kind == Configuration.PanelKind.GPIO && pins != null) {
            checkReadyPin(root, ads.readyPin(), pins);
        }
        Configuration.Storage storage = part(root.object("storage"), ConfigurationReader::storage);
        Configuration.Habits habits = part(root.object("sessions"), ConfigurationReader::habits);
        Configuration.Link link = part(root.object("link"), ConfigurationReader::link);
        root.finish();
        if (converter == null
                || inputs.isEmpty()
                || pins == null
                || storage == null
                || habits == null
                || link == null) {
            return null;
        }
        return new Configuration(
                instrument, rateHz, converter, inputs, supplyVolts, slowEveryS, kind, pins, storage, habits, link);
    }

    private static <T> T part(JsonFields node, JsonFields.Taker<T> taker) {
        return node.take(taker, POSSIBLE);
    }

    private static ConverterPlan converter(JsonFields node) {
        String kind = choice(node, "kind", "ADS1115", List.of("ADS1115", "MCP3208"));
        if (kind.equals("MCP3208")) {
            return new ConverterPlan.Mcp(
                    whole(node, "bus", 0),
                    whole(node, "chipSelect", 0),
                    (int) node.quantity("clock", Dimension.FREQUENCY, SPI_CLOCK_HZ),
                    node.quantity("reference", Dimension.VOLTAGE, REFERENCE_VOLTS),
                    whole(node, "average", CONVERSIONS));
        }
        return new ConverterPlan.Ads(whole(node, "bus", 1), address(node), pin(node, "readyPin", OptionalInt.empty()));
    }

    private static int address(JsonFields node) {
        String text = node.text("address", "0x48");
        try {
            return Integer.decode(text.strip());
        } catch (NumberFormatException e) {
            node.problem("address", "\"" + text + "\"", "an address such as \"0x48\"");
            return ADDRESS;
        }
    }

    private static List<SensorInput> inputs(JsonFields root, double supplyVolts) {
        List<SensorInput> inputs = new ArrayList<>();
        List<JsonFields> nodes = root.list("inputs");
        for (JsonFields node : nodes) {
            SensorInput input = part(node, fields -> input(fields, supplyVolts));
            if (input != null) {
                inputs.add(input);
            }
        }
        if (nodes.isEmpty()) {
            root.problem("no input", "a list \"inputs\" of at least { \"to\": \"250 bar\" }");
        } else if (inputs.size() == nodes.size() && inputs.get(0).kind() != ChannelKind.PRESSURE) {
            nodes.get(0)
                    .problem(
                            "measures",
                            "the first input measures " + inputs.get(0).kind().label(),
                            "the pressure under test first");
        }
        return inputs;
    }

    private static SensorInput input(JsonFields node, double supplyVolts) {
        List<String> labels = MEASURED.stream().map(ChannelKind::label).toList();
        ChannelKind kind = ChannelKind.of(choice(node, "measures", ChannelKind.PRESSURE.label(), labels));
        boolean pressure = kind == ChannelKind.PRESSURE || kind == ChannelKind.SECOND_PRESSURE;
        String name = node.text("name", kind.label());
        int pin = whole(node, "pin", 0);
        double share = divider(node);
        String form = choice(
                node,
                "signal",
                pressure ? "ratiometric" : "pt1000",
                List.of("ratiometric", "voltage", "current", "pt1000"));
        if (form.equals("pt1000")) {
            if (pressure) {
                node.problem("signal", "a Pt1000 for a pressure", "\"ratiometric\", \"voltage\" or \"current\"");
            }
            return SensorInput.pt1000(
                    name, kind, pin, node.quantity("series", Dimension.RESISTANCE, PT1000_SERIES_OHMS));
        }
        Signal signal = switch (form) {
            case "voltage" ->
                new Signal.Voltage(
                        node.quantity("signalFrom", Dimension.VOLTAGE, 0),
                        node.quantity("signalTo", Dimension.VOLTAGE, 10));
            case "current" -> new Signal.Current(node.quantity("shunt", Dimension.RESISTANCE, 150));
            default ->
                new Signal.Ratiometric(
                        node.quantity("signalFrom", Dimension.VOLTAGE, 0.1 * supplyVolts) / supplyVolts,
                        node.quantity("signalTo", Dimension.VOLTAGE, 0.9 * supplyVolts) / supplyVolts);
        };
        Dimension measured = pressure ? Dimension.PRESSURE : Dimension.TEMPERATURE;
        double from = pressure ? node.quantity("from", measured, 0) : node.quantity("from", measured);
        double to = node.quantity("to", measured);
        boolean fast = pressure && (kind == ChannelKind.PRESSURE || !node.flag("slow"));
        return new SensorInput(name, kind, pin, signal, share, from, to, fast);
    }

    private static double divider(JsonFields node) {
        if (!node.has("dividerAbove") && !node.has("dividerBelow")) {
            return 1;
        }
        double above = node.quantity("dividerAbove", Dimension.RESISTANCE);
        double below = node.quantity("dividerBelow", Dimension.RESISTANCE);
        return below / (above + below);
    }

    /** Where a signal is a share of the supply, the supply is measured, unless it is said to be what it should be. */
    private static void addSupply(JsonFields node, List<SensorInput> inputs, double supplyVolts) {
        boolean needed = inputs.stream().anyMatch(input -> input.signal().needsSupply());
        boolean measured = choice(node, "measured", needed ? "yes" : "no", List.of("yes", "no"))
                .equals("yes");
        int pin = whole(node, "pin", 1);
        double own = divider(node);
        if (measured) {
            boolean ownDivider = node.has("dividerBelow");
            // The usual board divides both by resistors of one kind: their errors then cancel.
            double share = ownDivider || inputs.isEmpty() ? own : inputs.get(0).dividerShare();
            SensorInput supply = node.checked(() -> SensorInput.supply(pin, share, supplyVolts), POSSIBLE);
            if (supply != null) {
                inputs.add(supply);
            }
        }
    }

    private static void checkPins(
            JsonFields root, ConverterPlan converter, List<SensorInput> inputs, double supplyVolts) {
        Set<Integer> pins = new HashSet<>();
        Set<String> names = new HashSet<>();
        for (SensorInput input : inputs) {
            if (input.pin() < 0 || input.pin() >= converter.inputs()) {
                root.problem(
                        "input \"" + input.name() + "\" at pin " + input.pin(),
                        "a pin from 0 to " + (converter.inputs() - 1) + " of the " + converter.name());
            } else if (!pins.add(input.pin())) {
                root.problem("two inputs at pin " + input.pin(), "one input for each pin of the converter");
            }
            if (!names.add(input.name())) {
                root.problem("two inputs named \"" + input.name() + "\"", "a \"name\" of its own for each");
            }
            double highest = input.signal().high() * input.pinVoltsPerUnit(supplyVolts);
            if (highest > converter.highestVolts() && !input.isSupply()) {
                root.problem(
                        String.format(Locale.ROOT, "input \"%s\" reaches %.2f V at its pin", input.name(), highest),
                        String.format(
                                Locale.ROOT,
                                "at most %.2f V: a divider (\"dividerAbove\", \"dividerBelow\") or a smaller shunt",
                                converter.highestVolts()));
            }
        }
    }

    private static void checkReadyPin(JsonFields root, OptionalInt readyPin, PanelPins pins) {
        if (readyPin.isPresent() && pins.uses(readyPin.getAsInt())) {
            root.problem(
                    "GPIO " + readyPin.getAsInt() + " as \"readyPin\" and as a pin of the panel",
                    "a pin of its own for each");
        }
    }

    private static Configuration.PanelKind panelKind(JsonFields node) {
        return Configuration.PanelKind.valueOf(choice(node, "kind", "gpio", List.of("gpio", "terminal", "none"))
                .toUpperCase(Locale.ROOT));
    }

    private static PanelPins pins(JsonFields node) {
        PanelPins usual = PanelPins.usual();
        return new PanelPins(
                pin(node, "button", usual.button()),
                pin(node, "lampLeft", usual.left()),
                pin(node, "lampMiddle", usual.middle()),
                pin(node, "lampRight", usual.right()),
                pin(node, "beeper", usual.beeper()),
                choice(node, "lampsLightWhen", "high", List.of("high", "low")).equals("high"));
    }

    private static Configuration.Storage storage(JsonFields node) {
        Path state = Path.of(node.text("state", STATE));
        Path sessions = Path.of(node.text("sessions", state.resolve("sessions").toString()));
        long warn = MEGABYTE * node.whole("warnBelowMegabytes", WARN_BYTES / MEGABYTE);
        long stop = MEGABYTE * node.whole("stopBelowMegabytes", STOP_BYTES / MEGABYTE);
        if (!(stop > 0 && warn >= stop)) {
            node.problem(
                    "room of " + warn + " and " + stop + " bytes", "more to warn at than to stop at, and more than 0");
        }
        return new Configuration.Storage(sessions, state, warn, stop);
    }

    private static Configuration.Habits habits(JsonFields node) {
        boolean onRise = choice(node, "beginWhenPressureRises", "yes", List.of("yes", "no"))
                .equals("yes");
        double before = node.quantity("secondsBefore", Dimension.TIME, USUAL_HABITS.secondsBefore());
        if (!(before >= 1 && before <= 60)) {
            node.problem("secondsBefore", before + " s", "from 1 to 60 s");
        }
        double rest = node.quantity("endAfterRest", Dimension.TIME, USUAL_HABITS.endsAfterRestS());
        if (!(rest >= 5 && rest <= 86_400)) {
            node.problem("endAfterRest", rest + " s", "from 5 s to 24 h");
        }
        return new Configuration.Habits(onRise, before, rest);
    }

    private static Configuration.Link link(JsonFields node) {
        OptionalInt port = node.has("tcpPort") ? OptionalInt.of(whole(node, "tcpPort", 0)) : OptionalInt.empty();
        if (port.isPresent() && (port.getAsInt() < 1 || port.getAsInt() > 65_535)) {
            node.problem("tcpPort", port.getAsInt() + "", "a port from 1 to 65535");
        }
        int baud = whole(node, "baud", LinkLimits.USUAL_BAUD);
        if (!LinkLimits.isBaud(baud)) {
            node.problem("baud", baud + "", "bits a second, " + LinkLimits.BAUDS);
        }
        Optional<String> address = optional(node, "tcpAddress");
        for (String key : List.of("tcpPort", "keyFile")) {
            if (address.isEmpty() && node.has(key)) {
                node.problem(
                        "\"" + key + "\" without \"tcpAddress\"",
                        "\"tcpAddress\" as well: without it there is no listening on the network");
            }
        }
        return new Configuration.Link(
                optional(node, "serial"),
                baud,
                address,
                port,
                optional(node, "keyFile").map(Path::of));
    }

    private static Optional<String> optional(JsonFields node, String name) {
        return Optional.of(node.text(name, "")).filter(text -> !text.isBlank());
    }

    private static int whole(JsonFields node, String name, int otherwise) {
        return (int) Math.max(Integer.MIN_VALUE, Math.min(Integer.MAX_VALUE, node.whole(name, otherwise)));
    }

    /** A pin; {@code "none"} where there is none. */
    private static OptionalInt pin(JsonFields node, String name, OptionalInt otherwise) {
        if (!node.has(name)) {
            return otherwise;
        }
        return node.isText(name, "none") ? OptionalInt.empty() : OptionalInt.of(whole(node, name, 0));
    }

    private static String choice(JsonFields node, String name, String otherwise, List<String> choices) {
        String text = node.text(name, otherwise);
        for (String choice : choices) {
            if (choice.equalsIgnoreCase(text.strip())) {
                return choice;
            }
        }
        String expected = NearMatch.of(text, choices)
                .map(near -> "\"" + near + "\"?")
                .orElse("one of \"" + String.join("\", \"", choices) + "\"");
        node.problem(name, "\"" + text + "\"", expected);
        return otherwise;
    }
}
