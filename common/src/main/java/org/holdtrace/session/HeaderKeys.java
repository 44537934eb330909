package org.holdtrace.session;

import com.fasterxml.jackson.core.JsonToken;
import com.fasterxml.jackson.dataformat.cbor.CBORParser;
import java.io.IOException;
import java.time.DateTimeException;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;

/** The keys of a header's payload. */
final class HeaderKeys implements PayloadReader.Key {
    private final String file;
    private final PayloadReader reader;
    private final Consumer<String> remarks;
    private String format = "";
    private int major = -1;
    private int minor;
    private String instrument = "";
    private String software = "";
    private Optional<Instant> startedAt = Optional.empty();
    private boolean simulated;
    private final List<Channel> channels = new ArrayList<>();
    private TestSetup setup = TestSetup.unknown();

    HeaderKeys(String file, PayloadReader reader, Consumer<String> remarks) {
        this.file = file;
        this.reader = reader;
        this.remarks = remarks;
    }

    /** The header, once all keys were read. */
    SessionHeader build() throws InputException {
        checkVersion();
        if (minor > PayloadWriter.MINOR) {
            remarks.accept("written in format " + major + "." + minor + ", this version knows " + PayloadWriter.MAJOR
                    + "." + PayloadWriter.MINOR);
        }
        return new SessionHeader(instrument, software, startedAt, simulated, channels, setup);
    }

    private void checkVersion() throws InputException {
        if (!format.equals(PayloadWriter.FORMAT)) {
            throw new InputException(
                    file, "header", "the format \"" + format + "\"", "\"" + PayloadWriter.FORMAT + "\"");
        }
        if (major != PayloadWriter.MAJOR) {
            throw new InputException(
                    file,
                    "header",
                    "a session in format " + major + "." + minor,
                    "format " + PayloadWriter.MAJOR + ".x; a newer version of this program may read it");
        }
    }

    @Override
    public boolean read(CBORParser parser, String key) throws IOException {
        switch (key) {
            case "format" -> format = parser.getText();
            case "major" -> major = parser.getIntValue();
            case "minor" -> {
                minor = parser.getIntValue();
                checkVersion(); // before a key whose meaning may have changed
            }
            case "instrument" -> instrument = parser.getText();
            case "software" -> software = parser.getText();
            case "startedAt" -> startedAt = instant(parser.getText());
            case "simulated" -> simulated = parser.getBooleanValue();
            case "channels" -> channels(parser);
            case "setup" -> setup(parser);
            default -> {
                return false;
            }
        }
        return true;
    }

    private Optional<Instant> instant(String text) {
        try {
            return Optional.of(Instant.parse(text));
        } catch (DateTimeException e) {
            remarks.accept("skipped \"startedAt\" of the header: \"" + text + "\" is no instant");
            return Optional.empty();
        }
    }

    private Optional<LocalDate> date(String text) {
        try {
            return Optional.of(LocalDate.parse(text));
        } catch (DateTimeException e) {
            remarks.accept("skipped \"date\" of a calibration: \"" + text + "\" is no date");
            return Optional.empty();
        }
    }

    /** A field that cannot be read is left out and told: the samples are worth having without it. */
    private void setup(CBORParser parser) throws IOException {
        List<InputException> problems = new ArrayList<>();
        SetupParser fields = new SetupParser("setup", problems);
        if (parser.currentToken() != JsonToken.START_OBJECT) {
            throw new IllegalArgumentException("a setup that is no map");
        }
        fields.object(parser);
        for (InputException problem : problems) {
            remarks.accept("skipped in the header: " + problem.getMessage());
        }
        setup = fields.setup();
    }

    private void channels(CBORParser parser) throws IOException {
        if (parser.currentToken() != JsonToken.START_ARRAY) {
            throw new IllegalArgumentException("channels that are no list");
        }
        while (parser.nextToken() != JsonToken.END_ARRAY) {
            ChannelKeys channel = new ChannelKeys();
            reader.map(parser, "a channel", channel);
            channels.add(channel.build());
        }
    }

    private final class ChannelKeys implements PayloadReader.Key {
        private int id = -1;
        private String kind = "";
        private String name = "";
        private double rateHz = Double.NaN;
        private Calibration calibration;

        private Channel build() {
            if (calibration == null) {
                throw new IllegalArgumentException("channel " + id + " without a calibration");
            }
            ChannelKind known = ChannelKind.of(kind);
            if (known == ChannelKind.OTHER) {
                remarks.accept("channel " + id + " measures \"" + kind + "\", which this version does not know");
            }
            return new Channel(id, known, name, rateHz, calibration);
        }

        @Override
        public boolean read(CBORParser parser, String key) throws IOException {
            switch (key) {
                case "id" -> id = parser.getIntValue();
                case "kind" -> kind = parser.getText();
                case "name" -> name = parser.getText();
                case "rateHz" -> rateHz = parser.getDoubleValue();
                case "calibration" -> {
                    CalibrationKeys keys = new CalibrationKeys();
                    reader.map(parser, "a calibration", keys);
                    calibration = keys.build();
                }
                default -> {
                    return false;
                }
            }
            return true;
        }
    }

    private final class CalibrationKeys implements PayloadReader.Key {
        private double voltsPerCount = Double.NaN;
        private double voltsAtZeroCount;
        private List<double[]> points = List.of();
        private final List<Calibration.Residual> residuals = new ArrayList<>();
        private Optional<String> reference = Optional.empty();
        private Optional<LocalDate> date = Optional.empty();

        private Calibration build() {
            if (points.size() != 2) {
                throw new IllegalArgumentException("a calibration of " + points.size() + " points");
            }
            return new Calibration(
                    voltsPerCount,
                    voltsAtZeroCount,
                    new Calibration.Point(points.get(0)[0], points.get(0)[1]),
                    new Calibration.Point(points.get(1)[0], points.get(1)[1]),
                    residuals,
                    reference,
                    date);
        }

        @Override
        public boolean read(CBORParser parser, String key) throws IOException {
            switch (key) {
                case "voltsPerCount" -> voltsPerCount = parser.getDoubleValue();
                case "voltsAtZeroCount" -> voltsAtZeroCount = parser.getDoubleValue();
                case "points" -> points = PayloadReader.pairs(parser);
                case "residuals" -> {
                    for (double[] pair : PayloadReader.pairs(parser)) {
                        residuals.add(new Calibration.Residual(pair[0], pair[1]));
                    }
                }
                case "reference" -> reference = Optional.of(parser.getText());
                case "date" -> date = date(parser.getText());
                default -> {
                    return false;
                }
            }
            return true;
        }
    }
}
