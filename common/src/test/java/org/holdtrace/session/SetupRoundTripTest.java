package org.holdtrace.session;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.EnumMap;
import java.util.Map;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import org.holdtrace.quantity.Quantity;
import org.junit.jupiter.api.Test;

class SetupRoundTripTest {
    /** Any setup the reader would accept. */
    @Provide
    static Arbitrary<TestSetup> setups() {
        Arbitrary<Map<SetupField, Object>> values = Arbitraries.of(SetupField.class)
                .set()
                .flatMap(fields -> Arbitraries.randoms().map(random -> {
                    Map<SetupField, Object> known = new EnumMap<>(SetupField.class);
                    for (SetupField field : fields) {
                        known.put(field, value(field, random.nextDouble(), random.nextDouble()));
                    }
                    return known;
                }));
        return values.map(SetupField::toSetup);
    }

    private static Object value(SetupField field, double a, double b) {
        return switch (field) {
            case MACHINE, COMPONENT, COMPONENT_KIND, PORT -> "Press \"" + a + "\" \n ünder";
            case OIL_GRADE -> a < 0.5 ? "ISO VG 46" : "HLP 32";
            case OIL_TEMPERATURE -> new Quantity(250 + 100 * a, b);
            case BULK_MODULUS -> new Quantity(2e8 + 9e9 * a, 1e8 * b);
            case AIR -> new Quantity(0.3 * a, b);
            case TRANSDUCER_RANGE -> new SetupField.Range(-1e5 * a, 1e7 * (b + 0.01));
            case TRANSDUCER_ACCURACY -> 1e-4 + a / 20;
            case REFERENCE_PRESSURE, RELIEF_SETTING -> new Quantity(1e7 * (a + 0.01), 1e5 * b);
            default -> new Quantity((0.99 * a + 0.001) * 1e-5, b * 1e-7);
        };
    }

    @Property(tries = 150)
    void anySetupReadsBackAsItWasWritten(@ForAll("setups") TestSetup setup) throws IOException {
        Path file = Files.createTempFile("holdtrace", ".setup.json");
        try {
            SetupWriter.write(setup, file);
            assertEquals(setup, SetupReader.read(file));
        } finally {
            Files.delete(file);
        }
    }

    @Test
    void aSetupIsWrittenAsAPersonWouldWriteIt() throws IOException {
        Map<SetupField, Object> known = Map.of(
                SetupField.MACHINE, "Loader 7",
                SetupField.OIL_GRADE, "ISO VG 46",
                SetupField.OIL_TEMPERATURE, new Quantity(295.15, 2),
                SetupField.TRAPPED_VOLUME, new Quantity(48e-6, 5e-6),
                SetupField.TRANSDUCER_RANGE, new SetupField.Range(0, 2.5e7),
                SetupField.TRANSDUCER_ACCURACY, 0.0025,
                SetupField.LIMIT, new Quantity(2.5e-7, 0));
        Path file = Files.createTempFile("holdtrace", ".setup.json");
        try {
            SetupWriter.write(SetupField.toSetup(known), file);
            assertEquals("""
                    {
                      "machine" : "Loader 7",
                      "oil" : {
                        "grade" : "ISO VG 46",
                        "temperature" : "22 ± 2 degC"
                      },
                      "trappedVolume" : "48 ± 5 cm3",
                      "transducer" : {
                        "range" : "0..250 bar",
                        "accuracy" : "0.25 %"
                      },
                      "limit" : "15 cm3/min"
                    }
                    """, Files.readString(file));
        } finally {
            Files.delete(file);
        }
    }
}
