package org.holdtrace.command;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertDoesNotThrow;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.TimeUnit;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.EnabledOnOs;
import org.junit.jupiter.api.condition.OS;
import org.junit.jupiter.api.io.TempDir;

/** The one runnable jar, called as people call it. */
class ShippedJarIT {
    private static final Path JAR = Path.of("target", "analyser.jar");

    /** A class of ours that only an analysis needs, in the log of the Java machine. */
    private static final Pattern LOADED = Pattern.compile(
            "(org\\.holdtrace\\.(?:trace|estimate|fit|fluid|leak|wording)\\.[\\w$]+) source: (?!shared)");

    @TempDir
    Path folder;

    private record Ended(int exitCode, String out, String err) {}

    private Ended call(String... words) throws IOException, InterruptedException {
        return call(List.of(), Map.of(), words);
    }

    private Ended call(List<String> options, Map<String, String> environment, String... words)
            throws IOException, InterruptedException {
        List<String> command = new ArrayList<>();
        command.add(Path.of(System.getProperty("java.home"), "bin", "java").toString());
        command.addAll(options);
        command.add("-jar");
        command.add(JAR.toAbsolutePath().toString());
        command.addAll(List.of(words));
        Path out = folder.resolve("out.txt");
        Path err = folder.resolve("err.txt");
        ProcessBuilder builder = new ProcessBuilder(command)
                .directory(folder.toFile())
                .redirectOutput(out.toFile())
                .redirectError(err.toFile());
        builder.environment().putAll(environment);
        Process process = builder.start();
        assertTrue(process.waitFor(60, TimeUnit.SECONDS), "did not end within a minute");
        return new Ended(
                process.exitValue(),
                Files.readString(out, StandardCharsets.UTF_8),
                Files.readString(err, StandardCharsets.UTF_8));
    }

    /** Writes invented.hold and its setup. */
    private void simulate() throws IOException, InterruptedException {
        Files.writeString(folder.resolve("invented.rig.json"), """
                {
                  "note": "invented: a worn spool", "seed": "7",
                  "oil": { "grade": "ISO VG 46", "temperature": "22 degC" },
                  "trappedVolume": "48 cm3",
                  "walls": { "hoseCompliance": "0.009 cm3/bar" },
                  "pump": { "stroke": "0.45 cm3" },
                  "leak": { "law": "laminar", "flow": "4 cm3/min", "at": "120 bar" },
                  "transducer": { "upTo": "250 bar", "whiteNoise": "0.03 bar" },
                  "tests": [ { "target": "120 bar", "hold": "20 s", "bleedOff": "3 s" } ]
                }
                """);
        Files.writeString(folder.resolve("invented.setup.json"), """
                { "trappedVolume": "48 ± 2 cm3", "oil": { "grade": "ISO VG 46", "temperature": "22 ± 2 degC" },
                  "lineCompliance": "0.009 ± 0.0005 cm3/bar", "pumpStroke": "0.45 ± 0.01 cm3",
                  "limit": "15 cm3/min" }
                """);
        Ended simulated = call("simulate", "invented.rig.json", "--out", "invented.hold");
        assertEquals(0, simulated.exitCode(), simulated.err());
    }

    @Test
    void helpComesFromTheJar() throws IOException, InterruptedException {
        Ended help = call("--help");
        assertEquals(0, help.exitCode(), help.err());
        assertEquals("", help.err());
        assertTrue(help.out().startsWith("Holdtrace: "), help.out());
    }

    @Test
    void theVersionIsThatOfTheBuild() throws IOException, InterruptedException {
        Ended version = call("--version");
        assertEquals(0, version.exitCode(), version.err());
        assertTrue(version.out().matches("Holdtrace \\d+\\.\\d+\\.\\d+(-SNAPSHOT)?\\R"), version.out());
    }

    /** /dev/full takes nothing, as a full disk does. */
    @Test
    @EnabledOnOs(OS.LINUX)
    void resultsThatCannotBeWrittenAreAnErrorAndNotLostInSilence() throws IOException, InterruptedException {
        simulate();
        for (String format : List.of("", " --json")) {
            Process process = new ProcessBuilder(
                            "sh",
                            "-c",
                            "java -jar " + JAR.toAbsolutePath() + " analyse invented.hold" + format + " > /dev/full")
                    .directory(folder.toFile())
                    .redirectError(folder.resolve("err.txt").toFile())
                    .start();
            assertTrue(process.waitFor(60, TimeUnit.SECONDS));
            assertEquals(1, process.exitValue());
            assertEquals(
                    "holdtrace: standard output: not everything could be written to it\n",
                    Files.readString(folder.resolve("err.txt")));
        }
    }

    @Test
    @EnabledOnOs(OS.LINUX)
    void aChartThatCannotBeWrittenIsNamedItself() throws IOException, InterruptedException {
        simulate();
        Files.createDirectories(folder.resolve("charts/invented-1.svg"));
        Ended call = call("analyse", "invented.hold", "--charts", "charts");
        assertEquals(1, call.exitCode());
        assertTrue(
                call.err().startsWith("holdtrace: invented.hold: its chart cannot be written; charts/invented-1.svg: "),
                call.err());
    }

    @Test
    void aRigTooExtremeToSimulateIsRefusedInASentence() throws IOException, InterruptedException {
        simulate();
        Path rig = folder.resolve("invented.rig.json");
        Files.writeString(rig, Files.readString(rig).replace("\"20 s\"", "\"1e9 s\""));
        Ended call = call("simulate", "invented.rig.json", "--out", "extreme.hold");
        assertEquals(1, call.exitCode());
        assertTrue(call.err().startsWith("holdtrace: invented.rig.json, line "), call.err());
        assertTrue(call.err().endsWith("; expected a rig that can exist\n"), call.err());
    }

    @Test
    void aCallWithoutACommandExits2() throws IOException, InterruptedException {
        Ended call = call();
        assertEquals(2, call.exitCode());
        assertEquals("", call.out());
        assertEquals(1, call.err().lines().count());
    }

    @Test
    void aSimulatedSessionIsAnalysedAndDrawn() throws IOException, InterruptedException {
        simulate();
        Ended analysed = call("analyse", "invented.hold", "--json", "--charts", "charts");
        assertEquals(0, analysed.exitCode(), analysed.err());
        assertEquals("", analysed.err());
        assertTrue(analysed.out().contains("\"outcome\" : \"within limit\""), analysed.out());
        assertTrue(Files.readString(folder.resolve("charts/invented-1.svg")).contains("WITHIN the limit"));
        Ended exported = call("export", "invented.hold", "--out", "out");
        assertEquals(0, exported.exitCode(), exported.err());
        Ended again = call("analyse", "out/invented-samples.csv", "--setup", "invented.setup.json");
        assertEquals(0, again.exitCode(), again.err());
        assertTrue(again.out().contains("WITHIN the limit of 15 cm³/min"), again.out());
    }

    @Test
    void aReportIsWrittenInSilenceAndComesOutTheSameTwice() throws IOException, InterruptedException {
        simulate();
        for (String ending : List.of(".pdf", ".html")) {
            List<byte[]> written = new ArrayList<>();
            for (String name : List.of("first", "second")) {
                Ended reported = call("report", "invented.hold", "--out", name + ending);
                assertEquals(new Ended(0, "", ""), reported);
                written.add(Files.readAllBytes(folder.resolve(name + ending)));
            }
            assertArrayEquals(written.get(0), written.get(1), ending);
        }
    }

    @Test
    void anAnalysisLoadsNothingOfReportsAndPictures() throws IOException, InterruptedException {
        simulate();
        call(List.of("-Xlog:class+load:file=classes.txt"), Map.of(), "analyse", "invented.hold");
        List<String> loaded = Files.readAllLines(folder.resolve("classes.txt"));
        for (String name :
                List.of("org.holdtrace.report.", "org.holdtrace.chart.", "com.openhtmltopdf.", "java.awt.")) {
            assertTrue(loaded.stream().noneMatch(line -> line.contains("] " + name)), name);
        }
        assertTrue(loaded.stream().anyMatch(line -> line.contains("] org.holdtrace.estimate.")));
    }

    @Test
    void aBrokenTraceExits1AndNamesFileAndLine() throws IOException, InterruptedException {
        Files.writeString(folder.resolve("bad.csv"), "time [s],pressure [bar]\n0,1\n1,x\n");
        Ended call = call("analyse", "bad.csv");
        assertEquals(1, call.exitCode());
        assertTrue(call.err().startsWith("holdtrace: bad.csv, line 3"), call.err());
    }

    /** Fontconfig is told of no folder with fonts, and Java keeps what it found before in the home folder. */
    @Test
    @EnabledOnOs(OS.LINUX)
    void whereThereAreNoFontsItSaysSoAndExits1() throws IOException, InterruptedException {
        simulate();
        Path none = Files.writeString(folder.resolve("fonts.conf"), """
                <?xml version="1.0"?>
                <!DOCTYPE fontconfig SYSTEM "fonts.dtd">
                <fontconfig></fontconfig>
                """);
        Ended call = call(
                List.of("-Duser.home=" + folder),
                Map.of("FONTCONFIG_FILE", none.toString()),
                "analyse",
                "invented.hold",
                "--charts",
                "charts");
        assertEquals(1, call.exitCode());
        assertTrue(
                call.err().startsWith("holdtrace: invented.hold: no picture, since Java finds no fonts"), call.err());
        assertEquals(1, call.err().lines().count(), call.err());
    }

    /** A class on the way of an analysis that is not in the list costs a fraction of a millisecond; many add up. */
    @Test
    void nearlyAllClassesOfAnAnalysisAreLoadedAhead() throws IOException, InterruptedException {
        simulate();
        List<String> options = List.of("-Xlog:class+load:file=classes.txt");
        for (String[] words : new String[][] {
            {"analyse", "invented.hold"},
            {"analyse", "invented.hold", "--json"}
        }) {
            Ended analysed = call(options, Map.of(), words);
            assertEquals(0, analysed.exitCode(), analysed.err());
            Set<String> ahead = new HashSet<>(ClassesAhead.names(words));
            List<String> missing = new ArrayList<>();
            int loadedInAll = 0;
            for (String line : Files.readAllLines(folder.resolve("classes.txt"))) {
                Matcher loaded = LOADED.matcher(line);
                if (loaded.find()) {
                    loadedInAll++;
                    if (!ahead.contains(loaded.group(1))) {
                        missing.add(loaded.group(1));
                    }
                }
            }
            assertTrue(loadedInAll > 50 && missing.size() < 0.1 * loadedInAll, missing.toString());
            for (String name : ahead) {
                assertDoesNotThrow(() -> Class.forName(name, false, getClass().getClassLoader()));
            }
        }
    }
}
