package org.holdtrace.adc;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.pi4j.io.i2c.I2C;
import com.pi4j.io.i2c.I2CBase;
import com.pi4j.io.i2c.I2CBusBase;
import com.pi4j.io.i2c.I2CConfig;
import com.pi4j.io.i2c.I2CProviderBase;
import java.io.UncheckedIOException;
import java.util.concurrent.Callable;
import org.holdtrace.adc.Ads1115.Mode;
import org.holdtrace.adc.Ads1115.Setup;
import org.holdtrace.adc.model.Ads1115Model;
import org.holdtrace.adc.model.NoAnswerException;
import org.holdtrace.adc.model.SimulatedClock;
import org.junit.jupiter.api.Test;

/** The driver through Pi4J's own classes, with the register-exact model where Linux would be. */
class Pi4jRegisterBusTest {
    private final SimulatedClock clock = new SimulatedClock(0);
    private final Ads1115Model chip = new Ads1115Model(clock, (input, timeNs) -> input == 1 ? 2.25 : -0.0375);

    @Test
    void theDriverReadsThroughPi4jWhatIsAtThePins() throws AdcException {
        try (PiBoard board = PiBoard.open(new ModelProvider(chip));
                Ads1115 adc = new Ads1115(
                        board.i2c(1, 0x48),
                        Setup.of(Mode.CONTINUOUS, Ads1115Rate.SPS_860, Ads1115Range.V6_144),
                        clock)) {
            assertEquals("ADS1115 at 0x48 on i2c-1", adc.name());
            adc.restart();
            assertEquals(12_000, adc.read(1));
            assertEquals(-200, adc.read(0));
        }
    }

    @Test
    void whatTheBusSaysReachesTheMessage() throws AdcException {
        try (PiBoard board = PiBoard.open(new ModelProvider(chip))) {
            RegisterBus bus = board.i2c(1, 0x48);
            chip.refuse(3);
            AdcException e = assertThrows(AdcException.class, () -> bus.readWord(1));
            assertTrue(e.getMessage().startsWith("0x48 on i2c-1: reading register 1: "), e.getMessage());
            assertTrue(e.getMessage().contains("no acknowledge"), e.getMessage());
            assertThrows(AdcException.class, () -> bus.writeWord(1, 0x4003));
            assertThrows(AdcException.class, bus::readLatest);
            bus.writeWord(2, 0xABCD);
            assertEquals(0xABCD, bus.readLatest());
        }
    }

    @Test
    void twoDriversForOneChipAreRefused() throws AdcException {
        try (PiBoard board = PiBoard.open(new ModelProvider(chip))) {
            board.i2c(1, 0x48);
            AdcException e = assertThrows(AdcException.class, () -> board.i2c(1, 0x48));
            assertEquals("0x48 on i2c-1 is in use by this program already", e.getMessage());
        }
    }

    @Test
    void onAComputerWithoutSuchABusTheMessageSaysWhatToLookAt() throws AdcException {
        try (PiBoard board = PiBoard.open()) {
            AdcException noI2c = assertThrows(AdcException.class, () -> board.i2c(97, 0x48));
            assertTrue(noI2c.getMessage().contains("is I2C switched on"), noI2c.getMessage());
            AdcException noSpi = assertThrows(AdcException.class, () -> board.spi(1, 2, 1_000_000));
            assertTrue(noSpi.getMessage().contains("is SPI switched on"), noSpi.getMessage());
        }
    }

    private static final class ModelProvider extends I2CProviderBase {
        private final Ads1115Model chip;

        ModelProvider(Ads1115Model chip) {
            super("model-i2c", "simulated I2C");
            this.chip = chip;
        }

        @Override
        public I2C create(I2CConfig config) {
            I2C device = new ModelDevice(this, config, chip);
            context.registry().add(device);
            return device;
        }
    }

    private static final class ModelBus extends I2CBusBase {
        ModelBus(I2CConfig config) {
            super(config);
        }

        @Override
        public <R> R execute(I2C i2c, Callable<R> action) {
            return _execute(i2c, action);
        }
    }

    private static final class ModelDevice extends I2CBase<ModelBus> {
        private final Ads1115Model chip;

        ModelDevice(ModelProvider provider, I2CConfig config, Ads1115Model chip) {
            super(provider, config, new ModelBus(config));
            this.chip = chip;
        }

        @Override
        public int write(byte b) {
            return write(new byte[] {b}, 0, 1);
        }

        @Override
        public int write(byte[] data, int offset, int length) {
            byte[] sent = new byte[length];
            System.arraycopy(data, offset, sent, 0, length);
            try {
                chip.write(sent, length);
            } catch (NoAnswerException e) {
                throw new UncheckedIOException(e);
            }
            return length;
        }

        @Override
        public int read() {
            byte[] one = new byte[1];
            read(one, 0, 1);
            return one[0];
        }

        @Override
        public int read(byte[] buffer, int offset, int length) {
            byte[] received = new byte[length];
            try {
                chip.read(received, length);
            } catch (NoAnswerException e) {
                throw new UncheckedIOException(e);
            }
            // As the real one does: the offset is ignored.
            System.arraycopy(received, 0, buffer, 0, length);
            return length;
        }

        @Override
        public int readRegister(int register) {
            byte[] one = new byte[1];
            readRegister(register, one, 0, 1);
            return one[0];
        }

        @Override
        public int readRegister(int register, byte[] buffer, int offset, int length) {
            write((byte) register);
            return read(buffer, offset, length);
        }

        @Override
        public int readRegister(byte[] register, byte[] buffer, int offset, int length) {
            write(register, 0, register.length);
            return read(buffer, offset, length);
        }

        @Override
        public int writeRegister(int register, byte b) {
            return write(new byte[] {(byte) register, b}, 0, 2);
        }

        @Override
        public int writeRegister(int register, byte[] data, int offset, int length) {
            return writeRegister(new byte[] {(byte) register}, data, offset, length);
        }

        @Override
        public int writeRegister(byte[] register, byte[] data, int offset, int length) {
            byte[] all = new byte[register.length + length];
            System.arraycopy(register, 0, all, 0, register.length);
            System.arraycopy(data, offset, all, register.length, length);
            return write(all, 0, all.length);
        }
    }
}
