package org.holdtrace.firmware;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.Optional;
import org.holdtrace.adc.AdcException;
import org.holdtrace.adc.Ads1115;
import org.holdtrace.adc.Converter;
import org.holdtrace.adc.ConverterPlan;
import org.holdtrace.adc.Mcp3208;
import org.holdtrace.adc.PiBoard;
import org.holdtrace.adc.SteadyClock;
import org.holdtrace.adc.model.Ads1115Model;
import org.holdtrace.adc.model.Mcp3208Model;
import org.holdtrace.adc.model.ModelRegisterBus;
import org.holdtrace.rig.RigFile;

/**
 * What the program is called to work with: the configuration and the converter it names, on this computer's own buses or
 * on a simulated line.
 */
final class Bench implements AutoCloseable {
    private static final double BUS_HZ = 400_000;
    private static final String RIG_SUFFIX = ".rig.json";

    private final Configuration configuration;
    private final Optional<RigFile> rig;
    private final SteadyClock clock = SteadyClock.system();
    private PiBoard board;

    /** Reads what {@code options} name. */
    Bench(Options options) throws IOException {
        Optional<Path> simulate = options.value("--simulate").map(Path::of);
        Optional<Path> data = options.value("--data").map(Path::of);
        rig = simulate.isPresent() ? Optional.of(RigFile.read(simulate.get())) : Optional.empty();
        Configuration read;
        if (rig.isPresent() && options.value("--config").isEmpty()) {
            String file = simulate.get().getFileName().toString();
            String name = file.endsWith(RIG_SUFFIX) ? file.substring(0, file.length() - RIG_SUFFIX.length()) : file;
            double rateHz = Math.max(50, Math.min(860, rig.get().rig().sensor().rateHz()));
            read = Configuration.simulated(
                    "simulated rig " + name,
                    rateHz,
                    rig.get().rig().sensor().scale().maxPa(),
                    data.orElse(Path.of("sessions")));
        } else {
            Path file = options.value("--config").map(Path::of).orElse(Configuration.USUAL_FILE);
            if (!Files.exists(file)) {
                throw new NoSuchFileException(
                        file.toString(),
                        null,
                        "there is no such file; expected " + ConfigurationReader.EXAMPLE
                                + ", or --simulate FILE.rig.json to do without");
            }
            read = Configuration.read(file);
        }
        configuration = data.isPresent() ? read.in(data.get()) : read;
    }

    Configuration configuration() {
        return configuration;
    }

    SteadyClock clock() {
        return clock;
    }

    boolean isSimulated() {
        return rig.isPresent();
    }

    /** The board, opened when first asked for. */
    PiBoard board() throws AdcException {
        if (board == null) {
            board = PiBoard.open();
        }
        return board;
    }

    /** The converter; nothing has been sent to it yet. */
    Converter converter() throws AdcException {
        return rig.isPresent()
                ? simulated(rig.get())
                : configuration
                        .converter()
                        .open(
                                board(),
                                configuration.inputs(),
                                configuration.rateHz(),
                                configuration.supplyVolts(),
                                clock);
    }

    private Converter simulated(RigFile file) {
        SimulatedLine line =
                new SimulatedLine(file, configuration.inputs(), configuration.supplyVolts(), configuration.rateHz());
        if (configuration.converter() instanceof ConverterPlan.Mcp mcp) {
            return new Mcp3208(
                    new Mcp3208Model(clock, line, mcp.referenceVolts()), mcp.referenceVolts(), mcp.conversions());
        }
        Ads1115Model chip = new Ads1115Model(clock, line);
        return new Ads1115(
                new ModelRegisterBus(chip, clock, BUS_HZ),
                ConverterPlan.Ads.setup(configuration.inputs(), configuration.rateHz(), configuration.supplyVolts()),
                clock);
    }

    @Override
    public void close() {
        if (board != null) {
            board.close();
        }
    }
}
