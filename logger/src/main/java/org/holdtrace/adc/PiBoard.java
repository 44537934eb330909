package org.holdtrace.adc;

import com.pi4j.Pi4J;
import com.pi4j.context.Context;
import com.pi4j.exception.Pi4JException;
import com.pi4j.io.i2c.I2C;
import com.pi4j.io.i2c.I2CConfigBuilder;
import com.pi4j.io.spi.Spi;
import com.pi4j.io.spi.SpiBus;
import com.pi4j.io.spi.SpiMode;
import com.pi4j.plugin.gpiod.provider.gpio.digital.GpioDDigitalInputProvider;
import com.pi4j.plugin.gpiod.provider.gpio.digital.GpioDDigitalOutputProvider;
import com.pi4j.plugin.linuxfs.provider.i2c.LinuxFsI2CProvider;
import com.pi4j.plugin.linuxfs.provider.spi.LinuxFsSpiProvider;
import com.pi4j.provider.Provider;
import java.util.HashSet;
import java.util.Locale;
import java.util.Set;

/**
 * The computer's own buses and pins: the one Pi4J context of the process. Its providers are named one by one and nothing
 * is detected: what detects may find stand-ins, and a recording of a stand-in is worse than none. Safe for use from
 * several threads.
 */
public final class PiBoard implements AutoCloseable {
    /** Which pins there are, in words. */
    public static final String GPIOS = "the header has GPIO 0 to 27";

    private static final int HIGHEST_GPIO = 27;

    private final Context context;
    private final Set<String> taken = new HashSet<>();
    private int ids;

    private PiBoard(Context context) {
        this.context = context;
    }

    /**
     * Opens the board. May be called on any computer: what is not there shows when it is asked for.
     *
     * @throws AdcException where Pi4J or its native part cannot start at all
     */
    public static PiBoard open() throws AdcException {
        return open(
                LinuxFsI2CProvider.newInstance(),
                LinuxFsSpiProvider.newInstance(),
                GpioDDigitalInputProvider.newInstance(),
                GpioDDigitalOutputProvider.newInstance());
    }

    /** A board of these providers. */
    static PiBoard open(Provider<?, ?, ?>... providers) throws AdcException {
        try {
            return new PiBoard(
                    Pi4J.newContextBuilder().noAutoDetect().add(providers).build());
        } catch (Pi4JException | LinkageError e) {
            throw new AdcException("Pi4J cannot start: " + e.getMessage(), e);
        }
    }

    /** Whether the header has a pin of this BCM number. */
    public static boolean hasGpio(int number) {
        return number >= 0 && number <= HIGHEST_GPIO;
    }

    /** For the panel's pins. */
    public Context context() {
        return context;
    }

    /** A name for Pi4J that was not given out before: it takes each once only. */
    public synchronized String newId(String what) {
        ids++;
        return what + "-" + ids;
    }

    /**
     * A chip on an I²C bus.
     *
     * @param bus number of the bus: 1 is {@code /dev/i2c-1}
     * @param address 0x03 to 0x77
     * @throws AdcException where the bus is not there, may not be used, or the address is taken already
     */
    public RegisterBus i2c(int bus, int address) throws AdcException {
        String name = String.format(Locale.ROOT, "0x%02X on i2c-%d", address, bus);
        // Pi4J itself lets two drivers talk to one chip.
        take(name);
        I2CConfigBuilder config = I2C.newConfigBuilder(context);
        try {
            return new Pi4jRegisterBus(
                    context.create(
                            config.id(newId("i2c")).bus(bus).device(address).build()),
                    name);
        } catch (RuntimeException e) {
            release(name);
            throw new AdcException(name + ": " + e.getMessage() + "; is I2C switched on, and may this user use it?", e);
        }
    }

    /**
     * A chip on an SPI bus, mode 0.
     *
     * @param bus 0 or 1
     * @param chipSelect 0 to 2
     * @param hertz clock, 1/s
     * @throws AdcException where the bus is not there, may not be used, or is taken already
     */
    public org.holdtrace.adc.SpiBus spi(int bus, int chipSelect, int hertz) throws AdcException {
        String name = "spidev" + bus + "." + chipSelect;
        take(name);
        try {
            // "flags" must stay unset: Pi4J then refuses to open.
            return new Pi4jSpiBus(
                    context.create(Spi.newConfigBuilder(context)
                            .id(newId("spi"))
                            .bus(SpiBus.getByNumber(bus))
                            .address(chipSelect)
                            .mode(SpiMode.MODE_0)
                            .baud(hertz)
                            .build()),
                    name);
        } catch (RuntimeException e) {
            release(name);
            throw new AdcException(name + ": " + e.getMessage() + "; is SPI switched on, and may this user use it?", e);
        }
    }

    /**
     * The converter's ready pin.
     *
     * @param gpio BCM number of the pin
     * @throws AdcException where there is no such pin, or it is in use
     */
    public ReadyPin readyPin(int gpio) throws AdcException {
        return new Pi4jReadyPin(gpio);
    }

    private synchronized void take(String name) throws AdcException {
        if (!taken.add(name)) {
            throw new AdcException(name + " is in use by this program already");
        }
    }

    private synchronized void release(String name) {
        taken.remove(name);
    }

    @Override
    public void close() {
        context.shutdown();
    }
}
