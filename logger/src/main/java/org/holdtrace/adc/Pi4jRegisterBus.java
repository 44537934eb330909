package org.holdtrace.adc;

import com.pi4j.io.i2c.I2C;

/**
 * A chip on the computer's I²C bus, by Pi4J. Only those of its calls are used that were found to work: combined reads from
 * offset 0 (another offset is ignored) and plain writes and reads.
 */
final class Pi4jRegisterBus implements RegisterBus {
    private final I2C device;
    private final String name;
    private final byte[] word = new byte[2];
    private final byte[] command = new byte[3];
    private final byte[] pointer = new byte[1];

    Pi4jRegisterBus(I2C device, String name) {
        this.device = device;
        this.name = name;
    }

    @Override
    public String name() {
        return name;
    }

    @Override
    public int readWord(int register) throws AdcException {
        try {
            return word(device.readRegister(register, word), "reading register " + register);
        } catch (RuntimeException e) {
            throw failed("reading register " + register, e);
        }
    }

    @Override
    public void writeWord(int register, int value) throws AdcException {
        command[0] = (byte) register;
        command[1] = (byte) (value >> 8);
        command[2] = (byte) value;
        write(command, "writing register " + register);
    }

    @Override
    public void point(int register) throws AdcException {
        pointer[0] = (byte) register;
        write(pointer, "pointing at register " + register);
    }

    private void write(byte[] bytes, String what) throws AdcException {
        int written;
        try {
            written = device.write(bytes, 0, bytes.length);
        } catch (RuntimeException e) {
            throw failed(what, e);
        }
        if (written != bytes.length) {
            throw new AdcException(name + ": " + what + ": " + written + " of " + bytes.length + " bytes were written");
        }
    }

    @Override
    public int readLatest() throws AdcException {
        try {
            return word(device.read(word, 0, 2), "reading");
        } catch (RuntimeException e) {
            throw failed("reading", e);
        }
    }

    private int word(int read, String what) throws AdcException {
        if (read != 2) {
            throw new AdcException(name + ": " + what + ": " + read + " of 2 bytes were read");
        }
        return (word[0] & 0xFF) << 8 | (word[1] & 0xFF);
    }

    private AdcException failed(String what, RuntimeException e) {
        Throwable cause = e.getCause() == null ? e : e.getCause();
        return new AdcException(name + ": " + what + ": " + cause.getMessage(), e);
    }

    @Override
    public void close() {
        device.close();
    }
}
