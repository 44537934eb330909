package org.holdtrace.adc;

import com.pi4j.io.spi.Spi;

/** A chip on the computer's SPI bus, by Pi4J, which tells of a failed transfer by its return value only. */
final class Pi4jSpiBus implements SpiBus {
    private final Spi device;
    private final String name;

    Pi4jSpiBus(Spi device, String name) {
        this.device = device;
        this.name = name;
    }

    @Override
    public String name() {
        return name;
    }

    @Override
    public void transfer(byte[] sent, byte[] received) throws AdcException {
        int moved;
        try {
            moved = device.transfer(sent, 0, received, 0, sent.length);
        } catch (RuntimeException e) {
            throw new AdcException(name + ": " + e.getMessage(), e);
        }
        if (moved != sent.length) {
            throw new AdcException(name + ": " + moved + " of " + sent.length + " bytes were transferred");
        }
    }

    @Override
    public void close() {
        device.close();
    }
}
