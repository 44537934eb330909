package org.holdtrace.rig;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.channels.Channels;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.IntToDoubleFunction;
import org.holdtrace.fluid.Oil;
import org.holdtrace.leak.LeakLaw;
import org.holdtrace.session.Calibration;
import org.holdtrace.session.Channel;
import org.holdtrace.session.ChannelKind;
import org.holdtrace.session.HoldFileWriter;
import org.holdtrace.session.SessionEvent;
import org.holdtrace.session.SessionHeader;
import org.holdtrace.session.TestSetup;
import org.holdtrace.trace.Phase;
import org.holdtrace.trace.PhaseSpan;
import org.holdtrace.trace.Stroke;
import org.holdtrace.trace.Trace;

/** Writes a simulated recording as a session: raw counts, nominal calibration, and the truth. */
final class SimulatedSession {
    /** Times are kept to 10 us: steps then take two bytes, and nothing here happens faster. */
    private static final double TICKS_PER_S = 1e5;

    private static final long NS_PER_TICK = 10_000;
    private static final int PRESSURE = 0;
    private static final int OIL = 1;
    private static final int AMBIENT = 2;

    /** Counts of the thermometer channels: 1/16 K each, from 0 degC. */
    private static final double THERMOMETER_STEP_K = 0.0625;

    private SimulatedSession() {}

    /**
     * The bytes of the session.
     *
     * @param name of the rig, for people
     * @param note free text, may be empty
     * @param setup what shall be known of the test
     */
    static byte[] bytes(SimulatedRun run, String name, String note, TestSetup setup) throws IOException {
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        try (HoldFileWriter writer = HoldFileWriter.to(Channels.newChannel(bytes), header(run, name, setup))) {
            writer.event(new SessionEvent.Note(0, "Simulated: no oil was under pressure."));
            if (!note.isBlank()) {
                writer.event(new SessionEvent.Note(0, note));
            }
            writer.truth(ofRig(run.truth()));
            samples(run, writer);
            for (Truth.Test test : run.truth().tests()) {
                writer.truth(ofTest(run.truth(), test));
            }
            writer.end("simulation complete");
        }
        return bytes.toByteArray();
    }

    private static SessionHeader header(SimulatedRun run, String name, TestSetup setup) {
        Sensor sensor = run.truth().rig().sensor();
        Sensor.Scale scale = sensor.scale();
        List<Channel> channels = new ArrayList<>();
        channels.add(new Channel(PRESSURE, ChannelKind.PRESSURE, "pressure", sensor.rateHz(), calibration(scale)));
        if (sensor.oilChannel()) {
            channels.add(new Channel(OIL, ChannelKind.OIL_TEMPERATURE, "oil", 1, thermometer()));
        }
        if (sensor.ambientChannel()) {
            channels.add(new Channel(AMBIENT, ChannelKind.AMBIENT_TEMPERATURE, "ambient", 1, thermometer()));
        }
        return new SessionHeader(
                "simulated rig " + name, "Holdtrace simulator", Optional.empty(), true, channels, setup);
    }

    private static Calibration calibration(Sensor.Scale scale) {
        // The transducer gives 0.5 to 4.5 V over its range.
        double voltsPerCount = 4 / (scale.countAtMax() - scale.countAtMin());
        return new Calibration(
                voltsPerCount,
                0.5 - scale.countAtMin() * voltsPerCount,
                new Calibration.Point(0.5, scale.minPa()),
                new Calibration.Point(4.5, scale.maxPa()),
                List.of(),
                Optional.empty(),
                Optional.empty());
    }

    private static Calibration thermometer() {
        return Calibration.line(
                THERMOMETER_STEP_K,
                new Calibration.Point(0, Oil.ZERO_CELSIUS_K),
                new Calibration.Point(1, Oil.ZERO_CELSIUS_K + 1));
    }

    private static void samples(SimulatedRun run, HoldFileWriter writer) throws IOException {
        Trace trace = run.trace();
        long[] timeNs = new long[trace.size()];
        for (int i = 0; i < timeNs.length; i++) {
            timeNs[i] = Math.max(0, Math.round(trace.timeS(i) * TICKS_PER_S)) * NS_PER_TICK;
        }
        int block = Math.max(1, (int) Math.round(run.truth().rig().sensor().rateHz()));
        for (int from = 0; from < timeNs.length; from += block) {
            int to = Math.min(timeNs.length, from + block);
            writer.samples(PRESSURE, timeNs, run.counts(), from, to);
            if (trace.hasOilTemperature()) {
                temperature(writer, OIL, timeNs[from], trace::oilTemperatureK, from);
            }
            if (trace.hasAmbientTemperature()) {
                temperature(writer, AMBIENT, timeNs[from], trace::ambientTemperatureK, from);
            }
        }
    }

    private static void temperature(
            HoldFileWriter writer, int channel, long timeNs, IntToDoubleFunction kelvinAt, int index)
            throws IOException {
        double steps = (kelvinAt.applyAsDouble(index) - Oil.ZERO_CELSIUS_K) / THERMOMETER_STEP_K;
        writer.samples(channel, new long[] {timeNs}, new int[] {(int) Math.round(steps)}, 0, 1);
    }

    private static org.holdtrace.session.Truth ofRig(Truth truth) {
        Rig rig = truth.rig();
        Map<String, Double> numbers = new LinkedHashMap<>();
        numbers.put("trappedVolumeM3", rig.fill().volumeM3());
        numbers.put("bulkModulusPa", rig.fill().modulusPa());
        numbers.put("airFraction", rig.fill().air().fraction());
        numbers.put("airPolytropicIndex", rig.fill().air().polytropicIndex());
        numbers.put("oilTemperatureK", rig.fill().temperatureK());
        numbers.put("pumpStrokeM3", rig.pump().strokeM3());
        coefficients("component", rig.leaks().component(), numbers);
        coefficients("line", rig.leaks().line(), numbers);
        Map<String, String> words = Map.of(
                "law", truth.law().label(),
                "componentLaw", rig.leaks().component().law().label(),
                "lineLaw", rig.leaks().line().law().label());
        return new org.holdtrace.session.Truth(0, numbers, words, List.of());
    }

    private static void coefficients(String whose, LeakLaw law, Map<String, Double> numbers) {
        if (law instanceof LeakLaw.Laminar laminar) {
            numbers.put(whose + "LaminarM3PerSPa", laminar.a());
        } else if (law instanceof LeakLaw.Orifice orifice) {
            numbers.put(whose + "OrificeM3PerSRootPa", orifice.b());
        } else if (law instanceof LeakLaw.Mixed mixed) {
            numbers.put(whose + "LaminarM3PerSPa", mixed.a());
            numbers.put(whose + "OrificeM3PerSRootPa", mixed.b());
        } else if (law instanceof LeakLaw.Thickening thickening) {
            numbers.put(whose + "LaminarM3PerSPa", thickening.a());
            numbers.put(whose + "ThickeningPerPa", thickening.perPa());
            if (thickening.b() > 0) {
                numbers.put(whose + "OrificeM3PerSRootPa", thickening.b());
            }
        } else if (law instanceof LeakLaw.Threshold threshold) {
            numbers.put(whose + "OpenM3PerSPa", threshold.g());
            numbers.put(whose + "OpeningPa", threshold.openingPa());
        }
    }

    /** The leak is given at the plateau's mean, else at the pressure at the last stroke's end. */
    private static org.holdtrace.session.Truth ofTest(Truth truth, Truth.Test test) {
        int index = test.number() - 1;
        double lastPa = test.strokes().get(test.strokes().size() - 1).endPa();
        double atPa = test.plateauMeanPa().orElse(lastPa);
        Map<String, Double> numbers = new LinkedHashMap<>();
        numbers.put("atPa", atPa);
        numbers.put("leakM3PerS", truth.leakM3PerS(atPa));
        numbers.put("componentLeakM3PerS", truth.componentLeakM3PerS(atPa));
        numbers.put("complianceM3PerPa", truth.complianceM3PerPa(index, atPa));
        numbers.put("fastComplianceM3PerPa", truth.fastComplianceM3PerPa(index, atPa));
        numbers.put("peakPa", test.peakPa());
        numbers.put("holdEndPa", test.holdEndPa());
        numbers.put("leakedInHoldM3", test.leakedInHoldM3());
        numbers.put("bledVolumeM3", test.bledVolumeM3());
        test.plateauMeanPa().ifPresent(pa -> numbers.put("plateauMeanPa", pa));
        for (PhaseSpan span : test.phases()) {
            numbers.put(word(span.phase()) + "FromS", span.fromS());
            numbers.put(word(span.phase()) + "ToS", span.toS());
        }
        Map<String, String> words = Map.of(
                "law", truth.law().label(),
                "reachedTarget", yesOrNo(test.reachedTarget()),
                "pumpReliefOpened", yesOrNo(test.pumpReliefOpened()));
        List<Stroke> strokes = test.strokes().stream()
                .filter(stroke -> stroke.startS() >= 0)
                .map(stroke -> new Stroke(stroke.startS(), stroke.endS()))
                .toList();
        return new org.holdtrace.session.Truth(test.number(), numbers, words, strokes);
    }

    private static String word(Phase phase) {
        return switch (phase) {
            case REST -> "rest";
            case PUMP_UP -> "pumpUp";
            case PLATEAU -> "plateau";
            case SETTLING -> "settling";
            case HOLD -> "hold";
            case BLEED_OFF -> "bleedOff";
        };
    }

    private static String yesOrNo(boolean is) {
        return is ? "yes" : "no";
    }
}
