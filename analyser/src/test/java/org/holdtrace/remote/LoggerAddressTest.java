package org.holdtrace.remote;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** What a person types, and what is meant by it. */
class LoggerAddressTest {
    @ParameterizedTest
    @CsvSource({
        "logger.local, logger.local, 28650",
        "10.0.0.7:4000, 10.0.0.7, 4000",
        "[fe80::1], fe80::1, 28650",
        "[fe80::1]:99, fe80::1, 99",
        "::1, ::1, 28650",
        "ttyACM0, ttyACM0, 28650",
        "comet, comet, 28650"
    })
    void whatHasNoSlashIsAHost(String typed, String host, int port) {
        assertEquals(new LoggerAddress.Tcp(host, port), LoggerAddress.parse(typed, 9600));
    }

    @ParameterizedTest
    @CsvSource({
        "/dev/ttyACM0, /dev/ttyACM0",
        "./usb, ./usb",
        "COM3, COM3",
        "com12, COM12",
        "\\\\.\\COM12, COM12",
    })
    void aPathOrAComPortIsASerialPort(String typed, String port) {
        assertEquals(new LoggerAddress.Serial(port, 9600), LoggerAddress.parse(typed, 9600));
    }

    @ParameterizedTest
    @ValueSource(strings = {"", " ", ":80", "host:", "host:0", "host:65536", "host:x", "[::1", "[::1]x", "two words"})
    void anythingElseIsRefused(String typed) {
        assertThrows(IllegalArgumentException.class, () -> LoggerAddress.parse(typed, 9600));
    }

    @Test
    void aPortThatIsNotThereIsNamed() {
        LoggerAddress nowhere = LoggerAddress.parse("/dev/no-such-port", 115_200);
        Exception e = assertThrows(
                org.holdtrace.link.LinkException.class, () -> nowhere.open("test", java.util.Optional.empty()));
        assertEquals(
                "/dev/no-such-port: there is no such serial port",
                e.getMessage().split(";", -1)[0]);
    }
}
