package org.holdtrace.wording;

import java.util.List;

/**
 * The usual cautions, once for every screen, page and sheet. The README says the same, word for word; a test holds the
 * two together.
 */
public final class SafetyText {
    /** What stands wherever a result may send somebody to the machine with a spanner. */
    public static final String SHORT = "Before any fitting is loosened: let the pressure off the way the machine's"
            + " maker says and see that it is gone. No hand near a suspected leak.";

    /** What stands above {@link #RULES}. */
    public static final String FIRST =
            "Hydraulic pressure maims and kills. Local codes and licensed practice come before anything written here.";

    /** What holds before the first stroke and as long as the test lasts, a sentence or two each. */
    public static final List<String> RULES = List.of(
            "Isolate the machine's energy and lock it out. Secure wheels and everything that is raised.",
            "Release stored pressure by the maker's procedure, and see that it is gone, before any fitting is loosened.",
            "Nothing is started, and no open line is put under pump pressure, while the test lasts.",
            "No hand near a suspected leak. Oil injected through the skin is a surgical emergency, however small the"
                    + " wound looks.",
            "Every hose, adapter and plug is rated above what the hand pump can reach. No home-modified fittings."
                    + " Never pump above the lowest rating in the line.",
            "Pumps and motors are not judged by a hold test.");

    /** What a figure is worth. */
    public static final String LAST = "A figure from this program is one input to a decision, not the decision."
            + " It says what leaked in this test, not what is safe.";

    private SafetyText() {}
}
