package org.holdtrace.firmware;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import org.holdtrace.adc.Ads1115.Mode;
import org.holdtrace.adc.Ads1115Range;
import org.holdtrace.adc.Ads1115Rate;
import org.holdtrace.adc.ConverterPlan;
import org.holdtrace.adc.SensorInput;
import org.holdtrace.adc.Signal;
import org.holdtrace.panel.PanelPins;
import org.holdtrace.session.ChannelKind;
import org.holdtrace.session.InputException;
import org.junit.jupiter.api.Test;

class ConfigurationTest {
    private static Configuration parse(String json) throws InputException {
        return Configuration.parse(json.getBytes(StandardCharsets.UTF_8), "logger.json");
    }

    private static String refused(String json) {
        return assertThrows(InputException.class, () -> parse(json)).getMessage();
    }

    @Test
    void theCommonWiringNeedsItsRangeOnly() throws InputException {
        Configuration all = parse("{ \"inputs\": [ { \"to\": \"250 bar\" } ] }");
        assertEquals("logger", all.instrument());
        assertEquals(250, all.rateHz());
        assertEquals(new ConverterPlan.Ads(1, 0x48, OptionalInt.empty()), all.converter());
        SensorInput pressure =
                new SensorInput("pressure", ChannelKind.PRESSURE, 0, Signal.Ratiometric.common(), 1, 0, 250e5, true);
        assertEquals(List.of(pressure, SensorInput.supply(1, 1, 5)), all.inputs());
        assertEquals(5, all.supplyVolts());
        assertEquals(1, all.slowEveryS());
        assertEquals(Configuration.PanelKind.GPIO, all.panel());
        assertEquals(PanelPins.usual(), all.pins());
        assertEquals(Path.of("/var/lib/holdtrace/sessions"), all.storage().sessions());
        assertEquals(Path.of("/var/lib/holdtrace"), all.storage().state());
        assertEquals(500_000_000, all.storage().warnBelowBytes());
        assertEquals(50_000_000, all.storage().stopBelowBytes());
        assertEquals(new Configuration.Habits(true, 5, 60), all.habits());
        assertEquals(
                new Configuration.Link(
                        Optional.empty(), 115_200, Optional.empty(), OptionalInt.empty(), Optional.empty()),
                all.link());
    }

    @Test
    void everyKeyIsUnderstood() throws InputException {
        Configuration all = parse("""
                { "instrument": "shop logger 2", "rate": "500 Hz", "slowInputsEvery": "2 s",
                  "converter": { "kind": "mcp3208", "bus": "0", "chipSelect": 1, "clock": "900 kHz",
                                 "reference": "4.096 V", "average": "8" },
                  "supply": { "measured": "yes", "pin": 7, "nominal": "5 V",
                              "dividerAbove": "10 kOhm", "dividerBelow": "30 kOhm" },
                  "inputs": [
                    { "measures": "pressure", "name": "port A", "pin": 0, "signal": "ratiometric", "signalFrom": "0.5 V",
                      "signalTo": "4.5 V", "from": "0 bar", "to": "400 bar",
                      "dividerAbove": "10 kOhm", "dividerBelow": "15 kOhm" },
                    { "measures": "second pressure", "pin": 1, "signal": "current", "shunt": "150 Ohm", "to": "5000 psi",
                      "slow": "no" },
                    { "measures": "oil temperature", "pin": 2, "series": "1 kOhm" },
                    { "measures": "ambient temperature", "pin": 3, "signal": "voltage", "signalFrom": "0.1 V",
                      "signalTo": "1.75 V", "from": "-40 degC", "to": "125 degC" } ],
                  "panel": { "kind": "gpio", "button": 5, "lampLeft": "6", "lampMiddle": 13, "lampRight": "none",
                             "beeper": "none", "lampsLightWhen": "low" },
                  "storage": { "state": "/srv/state", "sessions": "/srv/sessions", "warnBelowMegabytes": 900,
                               "stopBelowMegabytes": 90 },
                  "sessions": { "beginWhenPressureRises": "no", "secondsBefore": "10 s", "endAfterRest": "2 min" },
                  "link": { "serial": "/dev/ttyGS0", "baud": 230400, "tcpAddress": "0.0.0.0", "tcpPort": 28000,
                            "keyFile": "/etc/holdtrace/key" } }
                """);
        assertEquals("shop logger 2", all.instrument());
        assertEquals(500, all.rateHz());
        assertEquals(new ConverterPlan.Mcp(0, 1, 900_000, 4.096, 8), all.converter());
        assertEquals(5, all.inputs().size());
        assertEquals("port A", all.inputs().get(0).name());
        assertEquals(0.6, all.inputs().get(0).dividerShare(), 1e-12);
        assertEquals(new Signal.Current(150), all.inputs().get(1).signal());
        assertEquals(5000 * 6894.757293168, all.inputs().get(1).highSi(), 1e-3);
        assertTrue(all.inputs().get(1).fast() && !all.inputs().get(2).fast());
        assertEquals(398.15, all.inputs().get(3).highSi(), 1e-9);
        assertEquals(0.75, all.supplyInput().orElseThrow().dividerShare(), 1e-12);
        assertEquals(7, all.supplyInput().orElseThrow().pin());
        assertEquals(
                new PanelPins(
                        OptionalInt.of(5),
                        OptionalInt.of(6),
                        OptionalInt.of(13),
                        OptionalInt.empty(),
                        OptionalInt.empty(),
                        false),
                all.pins());
        assertEquals(
                new Configuration.Storage(Path.of("/srv/sessions"), Path.of("/srv/state"), 900_000_000, 90_000_000),
                all.storage());
        assertEquals(new Configuration.Habits(false, 10, 120), all.habits());
        assertEquals(230_400, all.link().baud());
        assertEquals(OptionalInt.of(28000), all.link().tcpPort());
        assertEquals(Optional.of(Path.of("/etc/holdtrace/key")), all.link().keyFile());
    }

    @Test
    void everyProblemOfAFileIsNamedAtOnceWithItsLine() {
        String all = refused("""
                { "rates": "250 Hz",
                  "converter": { "kind": "ADS1015", "address": "0x20" },
                  "inputs": [ { "to": "250 bars", "pin": 4 },
                              { "to": "100 bar", "pin": 4, "signal": "curent" } ],
                  "panel": { "button": 17 } }
                """);
        for (String problem : new String[] {
            "logger.json, line 1, field rates: unknown field \"rates\"; expected \"rate\"?",
            "field converter.kind: \"ADS1015\"; expected \"ADS1115\"?",
            "an ADS1115 has an address from 0x48 to 0x4B, not 0x20",
            "line 3, field inputs[1].to: \"250 bars\": unknown unit \"bars\"; expected \"bar\"?",
            "field inputs[2].signal: \"curent\"; expected \"current\"?",
            "GPIO 17 is given two duties of the panel"
        }) {
            assertTrue(all.contains(problem), problem + " is missing in:\n" + all);
        }
    }

    @Test
    void whatCannotBeWiredIsRefused() {
        assertTrue(refused("{}").contains("expected a list \"inputs\" of at least"));
        assertTrue(refused("{ \"inputs\": [ { } ] }").contains("no field \"to\""));
        assertTrue(refused("{ \"rate\": \"900 Hz\", \"inputs\": [ { \"to\": \"250 bar\" } ] }")
                .contains("a rate from 50 to 860 Hz"));
        assertTrue(refused("{ \"inputs\": [ { \"to\": \"250 bar\", \"pin\": 1 } ] }")
                .contains("two inputs at pin 1"));
        assertTrue(refused("{ \"inputs\": [ { \"to\": \"250 bar\", \"pin\": 4 } ] }")
                .contains("a pin from 0 to 3"));
        assertTrue(refused("{ \"inputs\": [ { \"to\": \"250 bar\", \"signal\": \"voltage\" } ] }")
                .contains("reaches 10.00 V at its pin"));
        assertTrue(refused("{ \"inputs\": [ { \"measures\": \"oil temperature\" } ] }")
                .contains("the pressure under test first"));
        assertTrue(refused("[]").contains("at least { \"inputs\""));
        assertTrue(refused("{ \"inputs\": [ { \"to\": \"250 bar\" } ], \"link\": { \"tcpPort\": 70000 } }")
                .contains("a port from 1 to 65535"));
        assertTrue(refused("{ \"inputs\": [ { \"to\": \"250 bar\" } ], \"link\": { \"baud\": 300 } }")
                .contains("bits a second, a whole number from 1200 to 4000000"));
    }

    @Test
    void pinsThatThereAreNotAndPinsWithTwoDutiesAreRefused() {
        String inputs = "\"inputs\": [ { \"to\": \"250 bar\" } ]";
        assertEquals(
                "logger.json, line 1, field converter: the header has GPIO 0 to 27, not a ready pin 999;"
                        + " expected wiring that can be",
                refused("{ " + inputs + ", \"converter\": { \"readyPin\": 999 } }"));
        assertEquals(
                "logger.json, line 1: GPIO 17 as \"readyPin\" and as a pin of the panel; expected a pin of its own for each",
                refused("{ " + inputs + ", \"converter\": { \"readyPin\": 17 } }"));
    }

    @Test
    void aKeyOrAPortWithoutAnAddressToListenAtIsRefused() {
        String inputs = "\"inputs\": [ { \"to\": \"250 bar\" } ]";
        for (String field : new String[] {"\"keyFile\": \"/etc/holdtrace/link.key\"", "\"tcpPort\": 28651"}) {
            String key = field.substring(0, field.indexOf(':'));
            assertEquals(
                    "logger.json, line 1, field link: " + key + " without \"tcpAddress\"; expected \"tcpAddress\" as"
                            + " well: without it there is no listening on the network",
                    refused("{ " + inputs + ", \"link\": { " + field + " } }"));
        }
    }

    @Test
    void aReadyPinMayBeOneThatAPanelOnATerminalDoesNotUse() throws InputException {
        Configuration all = parse("{ \"inputs\": [ { \"to\": \"250 bar\" } ], \"panel\": { \"kind\": \"terminal\" },"
                + " \"converter\": { \"readyPin\": 17 } }");
        assertEquals(new ConverterPlan.Ads(1, 0x48, OptionalInt.of(17)), all.converter());
    }

    @Test
    void theConverterIsSetUpForWhatIsWired() throws InputException {
        Configuration one = parse(
                "{ \"inputs\": [ { \"to\": \"250 bar\", \"dividerAbove\": \"10 kOhm\", \"dividerBelow\": \"15 kOhm\" } ] }");
        var setup = ConverterPlan.Ads.setup(one.inputs(), one.rateHz(), one.supplyVolts());
        assertEquals(Mode.CONTINUOUS, setup.mode());
        assertEquals(
                Ads1115Rate.SPS_860, setup.rate(), "the supply is read beside it: the shorter that takes, the better");
        assertEquals(Ads1115Range.V4_096, setup.ranges().get(0));
        assertEquals(Ads1115Range.V4_096, setup.ranges().get(1), "the supply has the same divider");
        Configuration two = parse("{ \"inputs\": [ { \"to\": \"250 bar\" },"
                + " { \"measures\": \"second pressure\", \"pin\": 2, \"to\": \"250 bar\" } ] }");
        assertEquals(
                Mode.SINGLE,
                ConverterPlan.Ads.setup(two.inputs(), two.rateHz(), 5).mode());
    }

    @Test
    void aSimulatedLineHasAConfigurationToo() {
        Configuration simulated = Configuration.simulated("loader", 250, 25e6, Path.of("out"));
        assertEquals(0.5, simulated.inputs().get(0).pinVolts(0, 5), 1e-12);
        assertEquals(4.5, simulated.inputs().get(0).pinVolts(25e6, 5), 1e-12);
        assertTrue(simulated.needsSupply());
    }
}
