package org.holdtrace.panel;

import java.util.EnumMap;
import java.util.Map;

/**
 * How a sign looks and sounds: which of three lamps light when, over a cycle of two seconds in sixteen slots, and when the
 * beeper beeps. Made to be told apart without colour: by which lamps light, and by their rhythm.
 *
 * @param left slots of the left lamp, {@code #} lit and {@code .} dark
 * @param middle of the middle lamp
 * @param right of the right lamp
 * @param beep of the beeper
 * @param beepEvery the beeper sounds in every so many-th cycle; 0: in the first only
 * @param looks the lamps in words
 * @param sounds the beeper in words
 * @param meaning what the sign says
 * @param todo what to do now
 */
public record PanelPattern(
        String left,
        String middle,
        String right,
        String beep,
        int beepEvery,
        String looks,
        String sounds,
        String meaning,
        String todo) {
    /** Slots of a cycle. */
    public static final int SLOTS = 16;

    /** Length of a slot, ns: an eighth of a second, the shortest flash that is still seen well. */
    public static final long SLOT_NS = 125_000_000;

    private static final String DARK = "................";
    private static final String STEADY = "################";
    private static final String FLASH = "#...............";
    private static final String QUICK = "#.#.#.#.#.#.#.#.";
    private static final String EVEN_1_S = "####....####....";
    private static final String EVEN_2_S = "########........";
    private static final String THREE = "##.##.##........";
    private static final String THREE_BEEPS = "#.#.#...........";
    private static final String TWO = "##..##..........";
    private static final String SILENT = DARK;

    private static final Map<PanelSign, PanelPattern> ALL = new EnumMap<>(PanelSign.class);

    static {
        put(
                PanelSign.READY,
                new PanelPattern(
                        FLASH,
                        DARK,
                        DARK,
                        SILENT,
                        0,
                        "left: one short flash every 2 s",
                        "",
                        "Ready. Nothing is being recorded.",
                        "Press to record, or just pump: recording begins by itself."));
        put(
                PanelSign.REST,
                new PanelPattern(
                        STEADY,
                        DARK,
                        DARK,
                        FLASH,
                        0,
                        "left: steady",
                        "one short beep",
                        "Recording. The line is at rest.",
                        "Pump when the test is set up. Press to end the session."));
        put(
                PanelSign.KEEP_PUMPING,
                new PanelPattern(
                        DARK,
                        QUICK,
                        DARK,
                        SILENT,
                        0,
                        "middle: quick flicker, 4 a second",
                        "",
                        "Pressure is rising.",
                        "Keep pumping, evenly."));
        put(
                PanelSign.STALLED,
                new PanelPattern(
                        "##......##......",
                        "....##......##..",
                        DARK,
                        "####............",
                        5,
                        "left and middle by turns, like a seesaw",
                        "one long beep, again every 10 s",
                        "Pressure no longer rises although you pump.",
                        "Keep the tempo for 20 strokes if you can, then stop: the leak takes all you pump."));
        put(
                PanelSign.SETTLING,
                new PanelPattern(
                        DARK,
                        EVEN_1_S,
                        DARK,
                        "########........",
                        0,
                        "middle: half a second on, half a second off",
                        "one very long beep",
                        "Pumping has stopped. The line settles.",
                        "Shut the valve at the pump. Touch nothing. Wait."));
        put(
                PanelSign.HOLDING,
                new PanelPattern(
                        DARK,
                        EVEN_2_S,
                        DARK,
                        SILENT,
                        0,
                        "middle: a second on, a second off",
                        "",
                        "Holding. The leak is being measured.",
                        "Wait."));
        put(
                PanelSign.ENOUGH,
                new PanelPattern(
                        THREE,
                        THREE,
                        THREE,
                        THREE_BEEPS,
                        5,
                        "all three together: three flashes, pause",
                        "three short beeps, again every 10 s",
                        "Enough is known.",
                        "Let the pressure off, slowly."));
        put(
                PanelSign.LETTING_OFF,
                new PanelPattern(
                        "........####....",
                        "....####........",
                        "####............",
                        SILENT,
                        0,
                        "running from right to left",
                        "",
                        "Pressure is falling.",
                        "Wait for the gauge to show zero. The lamps do not show that it is safe."));
        put(
                PanelSign.SENSOR_FAULT,
                new PanelPattern(
                        DARK,
                        DARK,
                        TWO,
                        TWO,
                        5,
                        "right: two flashes, pause",
                        "two beeps, again every 10 s",
                        "Transducer, wire or converter at fault.",
                        "Look at plug and cable. Recording goes on and recovers by itself."));
        put(
                PanelSign.RECORDING_FAULT,
                new PanelPattern(
                        DARK,
                        DARK,
                        "#######.#######.",
                        "#.#.#.#.#.......",
                        2,
                        "right: on, with a short gap every second",
                        "five short beeps, again every 4 s",
                        "The session cannot be written: card full, read-only or gone.",
                        "Do not rely on this recording. Make room or change the card."));
    }

    private static void put(PanelSign sign, PanelPattern pattern) {
        ALL.put(sign, pattern);
    }

    /** The pattern of a sign. */
    public static PanelPattern of(PanelSign sign) {
        return ALL.get(sign);
    }

    /** Slots of a lamp, 0 left to 2 right. */
    public String lamp(int number) {
        return number == 0 ? left : number == 1 ? middle : right;
    }

    /** Whether lamp {@code number} is lit {@code sinceNs} after the sign appeared, ns. */
    public boolean isLit(int number, long sinceNs) {
        return lamp(number).charAt(slot(sinceNs)) == '#';
    }

    /** Whether the beeper sounds {@code sinceNs} after the sign appeared, ns. */
    public boolean beeps(long sinceNs) {
        long cycle = sinceNs / (SLOTS * SLOT_NS);
        boolean sounds = cycle == 0 || (beepEvery > 0 && cycle % beepEvery == 0);
        return sounds && beep.charAt(slot(sinceNs)) == '#';
    }

    private static int slot(long sinceNs) {
        return (int) (sinceNs / SLOT_NS % SLOTS);
    }
}
