package org.holdtrace;

import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static com.tngtech.archunit.library.dependencies.SlicesRuleDefinition.slices;

import com.tngtech.archunit.core.importer.ImportOption;
import com.tngtech.archunit.junit.AnalyzeClasses;
import com.tngtech.archunit.junit.ArchTest;
import com.tngtech.archunit.lang.ArchRule;

/** The directions in which the logger's packages may know of one another. */
@AnalyzeClasses(packages = "org.holdtrace", importOptions = ImportOption.DoNotIncludeTests.class)
class DirectionsTest {
    @ArchTest
    static final ArchRule NOTHING_KNOWS_OF_THE_FIRMWARE_BUT_ITSELF = noClasses()
            .that()
            .resideOutsideOfPackage("org.holdtrace.firmware..")
            .should()
            .dependOnClassesThat()
            .resideInAPackage("org.holdtrace.firmware..");

    @ArchTest
    static final ArchRule THE_LINK_KNOWS_OF_NO_HARDWARE_AND_NO_RECORDING = noClasses()
            .that()
            .resideInAPackage("org.holdtrace.serve..")
            .should()
            .dependOnClassesThat()
            .resideInAnyPackage(
                    "org.holdtrace.adc..",
                    "org.holdtrace.panel..",
                    "org.holdtrace.acquire..",
                    "org.holdtrace.record..");

    @ArchTest
    static final ArchRule SAMPLING_AND_RECORDING_KNOW_OF_NO_PANEL_AND_NO_LINK = noClasses()
            .that()
            .resideInAnyPackage("org.holdtrace.adc..", "org.holdtrace.acquire..", "org.holdtrace.record..")
            .should()
            .dependOnClassesThat()
            .resideInAnyPackage("org.holdtrace.panel..", "org.holdtrace.serve..", "org.holdtrace.link..");

    @ArchTest
    static final ArchRule RECORDING_KNOWS_OF_NO_CONVERTER = noClasses()
            .that()
            .resideInAPackage("org.holdtrace.record..")
            .should()
            .dependOnClassesThat()
            .resideInAnyPackage("org.holdtrace.adc..", "org.holdtrace.acquire..");

    @ArchTest
    static final ArchRule ONLY_CONVERTERS_AND_PANEL_USE_PI4J = noClasses()
            .that()
            .resideOutsideOfPackages("org.holdtrace.adc..", "org.holdtrace.panel..")
            .should()
            .dependOnClassesThat()
            .resideInAPackage("com.pi4j..");

    @ArchTest
    static final ArchRule ONLY_ONE_CLASS_USES_THE_SERIAL_PORTS_LIBRARY = noClasses()
            .that()
            .haveNameNotMatching("org\\.holdtrace\\.serve\\.SerialWire.*")
            .should()
            .dependOnClassesThat()
            .resideInAPackage("com.fazecast..");

    @ArchTest
    static final ArchRule NO_TWO_PACKAGES_KNOW_OF_EACH_OTHER =
            slices().matching("org.holdtrace.(*)..").should().beFreeOfCycles();
}
