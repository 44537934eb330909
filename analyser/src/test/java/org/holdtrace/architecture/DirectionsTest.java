package org.holdtrace.architecture;

import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.classes;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static com.tngtech.archunit.library.dependencies.SlicesRuleDefinition.slices;

import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;

/** Who may know whom. A package that is not listed here fails, so that nobody adds one without saying where it stands. */
class DirectionsTest {
    private static final String ROOT = "org.holdtrace.";

    /** The desk and the command line may use all but the numerics, which {@code estimate} stands in front of. */
    private static final List<String> BELOW_THE_DESK = List.of(
            "quantity",
            "fluid",
            "line",
            "leak",
            "trace",
            "session",
            "link",
            "remote",
            "rig",
            "estimate",
            "wording",
            "chart",
            "judge",
            "library",
            "report");

    /** Each package and the packages of ours it may use. */
    private static final Map<String, List<String>> MAY_USE = Map.ofEntries(
            Map.entry("quantity", List.of()),
            Map.entry("fluid", List.of("quantity")),
            Map.entry("line", List.of("quantity", "fluid")),
            Map.entry("leak", List.of("quantity")),
            Map.entry("trace", List.of("quantity")),
            Map.entry("session", List.of("quantity", "trace")),
            Map.entry("link", List.of("quantity", "trace", "session")),
            Map.entry("remote", List.of("quantity", "trace", "session", "link")),
            Map.entry("rig", List.of("quantity", "fluid", "line", "leak", "trace", "session")),
            Map.entry("fit", List.of("quantity", "fluid", "line", "leak", "trace")),
            Map.entry("estimate", List.of("quantity", "fluid", "line", "leak", "trace", "session", "fit")),
            Map.entry("wording", List.of("quantity", "leak", "trace", "session", "estimate")),
            Map.entry("chart", List.of("quantity", "leak", "trace", "session", "estimate", "wording")),
            Map.entry("judge", List.of("quantity", "fluid", "line", "leak", "trace", "session", "estimate", "wording")),
            Map.entry(
                    "library", List.of("quantity", "line", "leak", "trace", "session", "estimate", "wording", "judge")),
            Map.entry(
                    "report",
                    List.of(
                            "quantity",
                            "fluid",
                            "leak",
                            "trace",
                            "session",
                            "estimate",
                            "wording",
                            "chart",
                            "judge",
                            "library")),
            Map.entry("desk", BELOW_THE_DESK),
            Map.entry("command", and(BELOW_THE_DESK, "desk")));

    private static final JavaClasses SHIPPED = new ClassFileImporter()
            .withImportOption(new ImportOption.DoNotIncludeTests())
            .withImportOption(location -> !location.contains("/logger/")) // there for tests only
            .importPackages("org.holdtrace");

    @TestFactory
    Stream<DynamicTest> eachPackageUsesOnlyWhatIsBelowIt() {
        return MAY_USE.entrySet().stream()
                .map(entry ->
                        DynamicTest.dynamicTest(entry.getKey(), () -> onlyUses(entry.getKey(), entry.getValue())));
    }

    private static List<String> and(List<String> packages, String another) {
        List<String> both = new ArrayList<>(packages);
        both.add(another);
        return List.copyOf(both);
    }

    private static void onlyUses(String name, List<String> mayUse) {
        List<String> others = new ArrayList<>(MAY_USE.keySet());
        others.removeAll(mayUse);
        others.remove(name);
        noClasses()
                .that()
                .resideInAPackage(ROOT + name + "..")
                .should()
                .dependOnClassesThat()
                .resideInAnyPackage(
                        others.stream().map(other -> ROOT + other + "..").toArray(String[]::new))
                .allowEmptyShould(true)
                .check(SHIPPED);
    }

    @Test
    void everyPackageHasItsPlace() {
        classes()
                .should()
                .resideInAnyPackage(MAY_USE.keySet().stream()
                        .map(name -> ROOT + name + "..")
                        .toArray(String[]::new))
                .check(SHIPPED);
    }

    @Test
    void packagesDoNotGoInCircles() {
        slices().matching(ROOT + "(*)..").should().beFreeOfCycles().check(SHIPPED);
    }

    @Test
    void onlyPicturesKnowTheScreenToolkit() {
        noClasses()
                .that()
                .resideOutsideOfPackages(ROOT + "chart..", ROOT + "report..", ROOT + "desk..")
                .should()
                .dependOnClassesThat()
                .resideInAnyPackage("java.awt..", "javax.swing..", "org.jfree..")
                .check(SHIPPED);
    }

    @Test
    void onlyOneClassKnowsTheLibraryThatLooksOnTheNetwork() {
        noClasses()
                .that()
                .haveNameNotMatching("org\\.holdtrace\\.remote\\.NetworkLoggers(\\$.*)?")
                .should()
                .dependOnClassesThat()
                .resideInAPackage("javax.jmdns..")
                .check(SHIPPED);
    }

    @Test
    void onlyOneClassKnowsTheSerialLibrary() {
        noClasses()
                .that()
                .haveNameNotMatching("org\\.holdtrace\\.remote\\.SerialWire(\\$.*)?")
                .should()
                .dependOnClassesThat()
                .resideInAPackage("com.fazecast..")
                .check(SHIPPED);
    }

    @Test
    void physicsKnowsNothingOfFiles() {
        noClasses()
                .that()
                .resideInAnyPackage(
                        ROOT + "quantity..", ROOT + "fluid..", ROOT + "line..", ROOT + "leak..", ROOT + "trace..")
                .should()
                .dependOnClassesThat()
                .resideInAnyPackage("java.nio.file..", "com.fasterxml..", "de.siegmar..")
                .orShould()
                .dependOnClassesThat()
                .haveFullyQualifiedName("java.io.File")
                .check(SHIPPED);
    }

    @Test
    void onlyCommandsTalkToTheProcess() {
        noClasses()
                .that()
                .resideOutsideOfPackage(ROOT + "command..")
                .should()
                .callMethod(System.class, "exit", int.class)
                .orShould()
                .accessField(System.class, "out")
                .orShould()
                .accessField(System.class, "err")
                .check(SHIPPED);
    }
}
