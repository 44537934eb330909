package org.holdtrace.firmware;

/** Which program this is. */
final class Version {
    /** As it stands in sessions. */
    static final String SOFTWARE = "Holdtrace logger " + number();

    private Version() {}

    private static String number() {
        String version = Version.class.getPackage().getImplementationVersion();
        return version == null ? "(development build)" : version;
    }
}
