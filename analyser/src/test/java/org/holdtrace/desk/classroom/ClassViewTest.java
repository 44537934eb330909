package org.holdtrace.desk.classroom;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.Component;
import java.awt.Point;
import java.awt.event.ActionEvent;
import java.awt.image.BufferedImage;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import javax.imageio.ImageIO;
import javax.swing.SwingUtilities;
import org.holdtrace.desk.look.Palette;
import org.holdtrace.desk.look.Theme;
import org.holdtrace.trace.Phase;
import org.holdtrace.wording.ShownUnits;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The screen without a window; its pictures stay in {@code target/pictures}. */
class ClassViewTest {
    private final LineSource line = new LineSource();
    private final ClassView view = new ClassView(Theme.usual());

    @TempDir
    Path folder;

    @BeforeEach
    void showTheLine() {
        view.show(List.of(new Still(line)));
        pass(5);
    }

    @Test
    void theSoundLineHoldsAndTheWornOneStallsWhileTheSameHandPumps() {
        press("3");
        pump(4);
        assertEquals(Phase.PUMP_UP, shown(0).phase());
        assertEquals(4, shown(0).strokes());
        pump(11);
        assertEquals(Phase.PLATEAU, shown(1).phase());
        assertTrue(shown(1).pressurePa() < 0.6 * shown(0).pressurePa(), "worn: " + shown(1));
        press("1");
        pump(8);
        assertEquals(Phase.PUMP_UP, shown(1).phase(), "mended, it rises again");
    }

    @Test
    void keysLetOffShutAndBlankOff() {
        pump(4);
        press("L");
        pass(4);
        assertEquals(0.2e5, shown(0).pressurePa(), 0.3e5);
        press("SPACE");
        pass(2);
        assertEquals(0.2e5, shown(0).pressurePa(), 0.3e5, "an open valve keeps no pressure");
        press("L");
        press("B");
        pump(4);
        assertEquals(
                shown(0).pressurePa(), shown(1).pressurePa(), 5e5, "with the component blanked off the line holds");
        assertEquals("blanked off", line.lanes().get(1).name());
    }

    @Test
    void eachFaultBringsPressureDownAndAWorseOneFaster() {
        Map<Fault, Double> left = new EnumMap<>(Fault.class);
        for (Fault fault : Fault.values()) {
            press(fault.key());
            pump(4);
            pass(6);
            left.put(fault, shown(1).pressurePa() / shown(0).pressurePa());
            press("L");
            pass(4);
            press("L");
        }
        assertEquals(1, left.get(Fault.SOUND), 0.02);
        for (Fault fault : List.of(Fault.SEAL, Fault.SPOOL, Fault.SEAT, Fault.RELIEF)) {
            assertTrue(left.get(fault) < 0.95, fault + " leaves " + left.get(fault));
            assertTrue(fault.law(Fault.BAD).flow(120e5) > 2 * fault.law(1).flow(120e5), "bad " + fault);
        }
    }

    @Test
    void theVerdictIsCoveredUntilAskedForAndSaysWhatTheAnalysisSays() {
        press("3");
        pump(6);
        pass(15);
        assertEquals("verdict covered · V uncovers it", text(0, "verdict"));
        Verdict.Told sound = line.lanes().get(0).verdict().of(line.lanes().get(0), ShownUnits.METRIC);
        Verdict.Told worn = line.lanes().get(1).verdict().of(line.lanes().get(1), ShownUnits.METRIC);
        assertEquals("OVER the limit of 2 cm³/min", worn.headline());
        assertEquals(pressureOf(worn.detail()), pressureOf(worn.truth()), "else nobody could compare them");
        assertEquals(pressureOf(sound.detail()), pressureOf(sound.truth()));
        // 36 cm³/min at 120 bar and 0.02 + 0.006 in proportion to pressure, as the training line is made.
        double wornBar = pressureOf(worn.truth());
        assertEquals(36 * wornBar / 120, Double.parseDouble(worn.truth().split(" ", -1)[2]), 0.51, worn.truth());
        double soundBar = pressureOf(sound.truth());
        assertEquals(0.026 * soundBar / 120, Double.parseDouble(sound.truth().split(" ", -1)[2]), 6e-4, sound.truth());
        press("V");
        assertTrue(view.isUncovered());
        press("V");
        assertEquals("verdict covered · V uncovers it", text(1, "verdict"));
    }

    @Test
    void theTruthIsThatOfTheHoldTestTheVerdictIsOnAndNotOfWhatWasDoneToTheLineSince() {
        press("4");
        pump(5);
        pass(9);
        Verdict.Told seat = told(1);
        assertEquals("OVER the limit of 2 cm³/min", seat.headline());
        // 6 cm³/min at 120 bar through an orifice, and 0.006 in proportion, as the training line is made.
        double bar = pressureOf(seat.truth());
        double truth = 6 * Math.sqrt(bar / 120) + 0.006 * bar / 120;
        assertEquals(truth, Double.parseDouble(seat.truth().split(" ", -1)[2]), 0.051, seat.truth());
        press("L");
        pass(5);
        press("L");
        for (String key : List.of("W", "B", "1")) {
            press(key);
            Verdict.Told now = told(1);
            assertEquals("before the change: OVER the limit of 2 cm³/min", now.headline());
            assertEquals(truth, Double.parseDouble(now.truth().split(" ", -1)[2]), 0.051, key + ": " + now.truth());
        }
        pump(5);
        pass(9);
        assertEquals("WITHIN the limit of 2 cm³/min", told(1).headline());
        press("5");
        pass(3);
        // So much is lost at once that the hold is over: the verdict is on what was before.
        assertEquals("before the change: WITHIN the limit of 2 cm³/min", told(1).headline());
        press("L");
        pass(5);
        press("L");
        press("1");
        pump(5);
        pass(9);
        press("W");
        assertEquals("WITHIN the limit of 2 cm³/min", told(1).headline(), "a sound line has nothing to get worse");
        press("2");
        pass(5);
        assertEquals("changed while it was tested", told(1).headline());
        assertEquals("", told(1).truth());
        assertEquals("WITHIN the limit of 2 cm³/min", told(0).headline(), "nobody touched the sound one");
    }

    private Verdict.Told told(int lane) {
        return line.lanes().get(lane).verdict().of(line.lanes().get(lane), ShownUnits.METRIC);
    }

    @Test
    void namesAreCoveredWhereAClassIsAskedWhichIsWhich() {
        press("4");
        assertEquals(List.of("sound", "nicked seat"), List.of(text(0, "name"), text(1, "name")));
        press("N");
        assertEquals(List.of("left", "right"), List.of(text(0, "name"), text(1, "name")));
        press("3");
        assertEquals("right", text(1, "name"), "what it is broken by is not told by breaking it");
        String heard = view.views().get(1).getAccessibleContext().getAccessibleName();
        assertTrue(heard.startsWith("right: "), heard);
        press("N");
        assertEquals("worn spool", text(1, "name"));
    }

    @Test
    void whatWasDoneIsSaidInTheTitlesPlace() {
        view.say("the picture is on the clipboard");
        Plate title = (Plate) view.getComponent(0);
        assertEquals("the picture is on the clipboard", title.text());
        press("U");
        assertEquals("the picture is on the clipboard", title.text(), "not wiped away by the next figure");
        view.say("");
        assertEquals("simulated line, nothing real is under pressure", title.text());
    }

    @Test
    void aPictureHasThePixelsOfADisplayThatTheSystemScales() {
        Pictures.of(view, 1366, 768, "class-unscaled");
        BufferedImage twice = ClassPicture.image(view, 2, 1.5);
        assertEquals(2732, twice.getWidth());
        assertEquals(1152, twice.getHeight());
        int corner = twice.getRGB(2731 - 20, 1151 - 20);
        assertEquals(view.theme().palette().surface().getRGB(), corner, "drawn to its last corner");
    }

    @Test
    void screenReadersHearPressureAndPhase() {
        pump(1);
        view.setUnits(ShownUnits.METRIC);
        String heard = view.views().get(0).getAccessibleContext().getAccessibleName();
        assertTrue(heard.matches("sound: \\d+\\.\\d bar, pump-up"), heard);
    }

    @Test
    void picturesAreDrawnInLightAndDarkAndAtEverySize() throws IOException {
        pump(5);
        pass(9);
        for (Theme theme : List.of(Theme.usual(), new Theme(true, 100))) {
            view.setTheme(theme);
            view.setUnits(ShownUnits.METRIC);
            for (int height : new int[] {768, 1080, 2160}) {
                int width = height == 768 ? 1366 : height * 16 / 9;
                BufferedImage image =
                        Pictures.of(view, width, height, "class-" + (theme.dark() ? "dark-" : "light-") + height);
                assertTrue(count(image, theme.palette().measured().getRGB()) > 300, "the trace is there");
            }
        }
        Path svg = folder.resolve("class.svg");
        ClassPicture.draw(view, svg).write(svg);
        assertTrue(Files.readString(svg).contains("viewBox="), "an SVG that scales");
        Path png = ClassPicture.withEnding(folder.resolve("class"));
        ClassPicture.draw(view, png).write(png);
        assertEquals(3840, ImageIO.read(png.toFile()).getWidth());
    }

    @Test
    void fromTheBackOfTheRoomFiguresAndPhaseStillRead() {
        // A sixth of the picture is what a class sees of it from some eight times as far as its author. Letters of 9
        // pixels and more can be told apart; common practice, no source.
        pump(5);
        pass(9);
        // Large type, which is for whoever sits before the screen, takes nothing from those at the back.
        for (int percent : new int[] {100, 200, 300}) {
            view.setTheme(new Theme(false, percent));
            view.setUnits(ShownUnits.METRIC);
            BufferedImage image = Pictures.of(view, 1366, 768, "class-back-row");
            assertTrue(inkHeight(image, part(0, "pressure")) / 6.0 > 14, "figures");
            assertTrue(inkHeight(image, part(0, "phase")) / 6.0 > 6, "phase");
            for (String part : List.of("figures", "truth")) {
                part(0, part).setText("36.12 (35.1 to 37.1) cm³/min at 132 bar");
            }
            image = Pictures.of(view, 1366, 768, "class-back-row-" + percent);
            for (String part : List.of("figures", "truth")) {
                assertTrue(inkHeight(image, part(0, part)) / 6.0 > 4.5, part + ": " + inkHeight(image, part(0, part)));
            }
        }
    }

    /** The pressure that a text ends with, bar. */
    private static double pressureOf(String words) {
        assertTrue(words.matches(".* cm³/min at [0-9.]+ bar"), words);
        return Double.parseDouble(words.substring(words.lastIndexOf(" at ") + 4, words.length() - 4));
    }

    /** Height of what is drawn in the text's colour, pixels. */
    private int inkHeight(BufferedImage image, Plate plate) {
        Point at = SwingUtilities.convertPoint(plate, 0, 0, view);
        int first = -1;
        int last = -1;
        for (int y = 0; y < plate.getHeight(); y++) {
            for (int x = 0; x < plate.getWidth(); x++) {
                int rgb = image.getRGB(at.x + x, at.y + y) & 0xFFFFFF;
                if (rgb == (Palette.LIGHT.text().getRGB() & 0xFFFFFF)) {
                    first = first < 0 ? y : first;
                    last = y;
                }
            }
        }
        return last - first + 1;
    }

    private static int count(BufferedImage image, int rgb) {
        int count = 0;
        for (int y = 0; y < image.getHeight(); y++) {
            for (int x = 0; x < image.getWidth(); x++) {
                count += (image.getRGB(x, y) & 0xFFFFFF) == (rgb & 0xFFFFFF) ? 1 : 0;
            }
        }
        return count;
    }

    private Plate part(int lane, String name) {
        for (Component each : view.views().get(lane).getComponents()) {
            if (name.equals(each.getName())) {
                return (Plate) each;
            }
        }
        throw new AssertionError("no part " + name);
    }

    private String text(int lane, String name) {
        return part(lane, name).text();
    }

    private Lane.Shown shown(int lane) {
        return line.lanes().get(lane).shown();
    }

    private void pump(int strokes) {
        for (int i = 0; i < strokes; i++) {
            press("SPACE");
            pass(1);
        }
    }

    private void pass(double seconds) {
        for (double t = 0; t < seconds - 1e-9; t += 0.02) {
            line.tick(0.02);
        }
    }

    private void press(String stroke) {
        view.getActionMap().get(stroke).actionPerformed(new ActionEvent(view, 0, stroke));
    }
}
