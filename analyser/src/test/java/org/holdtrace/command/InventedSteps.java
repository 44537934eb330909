package org.holdtrace.command;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.holdtrace.estimate.EstimateOptions;
import org.holdtrace.estimate.HoldTestResult;
import org.holdtrace.library.InputFile;
import org.holdtrace.library.Recording;
import org.holdtrace.quantity.Quantity;
import org.holdtrace.session.InputException;
import org.holdtrace.session.TestSetup;
import org.holdtrace.testdata.InventedTests;
import org.holdtrace.trace.HoldTest;
import org.holdtrace.trace.Trace;

/**
 * Steps that look only at a file's first word: the name of an invented case, {@code broken}, {@code nothing} (no hold
 * test in it) or {@code crash}. What was asked for last is kept for the test to see.
 */
final class InventedSteps implements Steps {
    private EstimateOptions lastOptions;

    synchronized EstimateOptions lastOptions() {
        return lastOptions;
    }

    @Override
    public Recording read(InputFile input) throws IOException {
        String word = Files.readString(input.path()).strip();
        switch (word) {
            case "broken" ->
                throw new InputException(input.path().toString(), "line 3", "\"12,x\" as pressure", "a number");
            case "nothing" -> {
                return new Recording(
                        Trace.of(new double[] {0, 1}, new double[] {0, 0}),
                        TestSetup.unknown(),
                        Optional.empty(),
                        List.of());
            }
            case "crash" -> throw new IllegalStateException("a slip of ours");
            default -> {
                InventedTests.Case test = byWord(word);
                return new Recording(test.trace(), test.setup(), Optional.empty(), List.of());
            }
        }
    }

    private static InventedTests.Case byWord(String word) {
        return switch (word) {
            case "worn", "simulated" -> InventedTests.wornPort();
            case "tight" -> InventedTests.tightCylinder();
            case "bare" -> InventedTests.bareTrace();
            case "doubtful" -> InventedTests.doubtful();
            case "no-hold" -> InventedTests.noHold();
            default -> throw new IllegalArgumentException(word);
        };
    }

    @Override
    public TestSetup setupOf(InputFile input, Recording recording) throws IOException {
        return Files.exists(input.setupBeside()) ? readSetup(input.setupBeside()) : recording.setup();
    }

    @Override
    public TestSetup readSetup(Path file) throws IOException {
        String machine = Files.readString(file).strip();
        if (machine.equals("broken")) {
            throw new InputException(file.toString(), "field trappedVolum", "an unknown field", "trappedVolume?");
        }
        TestSetup none = TestSetup.unknown();
        return new TestSetup(
                Optional.of(machine),
                none.component(),
                none.componentKind(),
                none.port(),
                none.oilGrade(),
                none.oilTemperatureK(),
                none.bulkModulusPa(),
                none.airFraction(),
                none.trappedVolumeM3(),
                none.lineComplianceM3PerPa(),
                none.pumpStrokeM3(),
                none.bledVolumeM3(),
                none.transducerMinPa(),
                none.transducerMaxPa(),
                none.transducerAccuracy(),
                none.referencePressurePa(),
                none.reliefSettingPa(),
                Optional.of(Quantity.exactly(15e-6 / 60)));
    }

    @Override
    public List<HoldTest> segment(Trace trace) {
        return trace.size() == 2 ? List.of() : List.of(caseOf(trace).result().holdTest());
    }

    @Override
    public synchronized HoldTestResult estimate(Trace trace, HoldTest test, TestSetup setup, EstimateOptions options) {
        lastOptions = options;
        return caseOf(trace).result();
    }

    /** The cases differ in their number of samples. */
    private static InventedTests.Case caseOf(Trace trace) {
        return InventedTests.all().stream()
                .filter(test -> test.trace().size() == trace.size())
                .findFirst()
                .orElseThrow();
    }

    @Override
    public void draw(Path svg, InputFile input, Trace trace, TestSetup setup, HoldTestResult result)
            throws IOException {
        Files.writeString(svg, "<svg/>");
    }

    @Override
    public void simulate(Path rigFile, Path sessionFile) throws IOException {
        if (Files.readString(rigFile).strip().equals("broken")) {
            throw new InputException(rigFile.toString(), "field oil", "nothing", "an oil grade");
        }
        Files.writeString(sessionFile, "simulated");
    }

    @Override
    public boolean isSimulated(Path file) {
        try {
            return Files.readString(file).equals("simulated");
        } catch (IOException e) {
            return false;
        }
    }
}
