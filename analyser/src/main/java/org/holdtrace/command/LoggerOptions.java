package org.holdtrace.command;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.holdtrace.library.Failures;
import org.holdtrace.link.LinkClient;
import org.holdtrace.link.LinkKey;
import org.holdtrace.link.LinkLimits;
import org.holdtrace.remote.LoggerAddress;

/**
 * Which logger a call is about and how it is reached.
 *
 * @param operand as it was typed
 * @param key to prove where the logger asks for one
 */
record LoggerOptions(String operand, LoggerAddress address, Optional<LinkKey> key) {
    static final String KEY = "--key";
    static final String BAUD = "--baud";

    /** The options both commands have. */
    static List<Option> options() {
        return List.of(
                Option.valued(KEY, "FILE", "the logger's key, where it is reached over the network"),
                Option.valued(BAUD, "NUMBER", "speed of a serial port that is no USB cable; usually 115200"));
    }

    static LoggerOptions of(Arguments arguments) throws UsageException {
        if (arguments.operands().size() != 1) {
            throw new UsageException("expected exactly one logger, a serial port such as /dev/ttyACM0 or COM3 or a host"
                    + " such as logger.local, was given "
                    + arguments.operands().size());
        }
        String operand = arguments.operands().get(0);
        try {
            return new LoggerOptions(
                    operand, LoggerAddress.parse(operand, baud(arguments.value(BAUD))), key(arguments.value(KEY)));
        } catch (IllegalArgumentException e) {
            throw new UsageException(e.getMessage());
        }
    }

    private static int baud(String text) throws UsageException {
        if (text == null) {
            return LinkLimits.USUAL_BAUD;
        }
        int baud;
        try {
            baud = Integer.parseInt(text);
        } catch (NumberFormatException e) {
            baud = -1;
        }
        if (!LinkLimits.isBaud(baud)) {
            throw new UsageException(BAUD + " was given \"" + text + "\"; expected " + LinkLimits.BAUDS);
        }
        return baud;
    }

    private static Optional<LinkKey> key(String file) throws UsageException {
        if (file == null) {
            return Optional.empty();
        }
        Path path = Inputs.path(file);
        try {
            return Optional.of(LinkKey.read(path));
        } catch (IOException e) {
            throw new UsageException(KEY + ": " + Failures.sentence(file, e));
        }
    }

    /** Opens a link. */
    LinkClient open() throws IOException {
        return address.open(Main.program(), key);
    }
}
