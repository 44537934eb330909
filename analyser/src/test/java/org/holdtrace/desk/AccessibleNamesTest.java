package org.holdtrace.desk;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.Component;
import java.awt.Container;
import java.awt.Window;
import java.awt.event.KeyEvent;
import java.io.IOException;
import java.nio.file.Files;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import javax.swing.AbstractButton;
import javax.swing.JComboBox;
import javax.swing.JComponent;
import javax.swing.JFileChooser;
import javax.swing.JList;
import javax.swing.JMenu;
import javax.swing.JMenuBar;
import javax.swing.JProgressBar;
import javax.swing.JScrollBar;
import javax.swing.JTabbedPane;
import javax.swing.JTable;
import javax.swing.SwingUtilities;
import javax.swing.text.JTextComponent;
import org.assertj.swing.edt.GuiActionRunner;
import org.assertj.swing.finder.WindowFinder;
import org.assertj.swing.fixture.DialogFixture;
import org.assertj.swing.fixture.FrameFixture;
import org.assertj.swing.fixture.JFileChooserFixture;
import org.assertj.swing.fixture.JOptionPaneFixture;
import org.holdtrace.desk.look.Drawing;
import org.holdtrace.desk.look.Theme;
import org.holdtrace.desk.work.DeskState;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** What a screen reader says: nothing that can be worked, and nothing that is drawn, is without a name. */
class AccessibleNamesTest extends WindowTest {
    /** Of the type, %. */
    private int size = 100;

    @Test
    void everythingInTheWindowHasAName() {
        FrameFixture desk = openDesk();
        allNamed("start", desk.target());
        choose(desk, demo);
        until("all are there", () -> desk.label("status").text().equals("10 recordings brought in"));
        allNamed("figures", desk.target());
        desk.tabbedPane("beside the trace").selectTab("Setup");
        allNamed("setup", desk.target());
        desk.tabbedPane("views").selectTab("Compare");
        allNamed("compare", desk.target());
        desk.tabbedPane("views").selectTab("Case");
        allNamed("no case", desk.target());
        desk.button("choose a case").click();
        JFileChooserFixture chooser = desk.fileChooser("choose case");
        chooser.fileNameTextBox().setText(demo.resolve("rowan-loader.case.json").toString());
        chooser.approve();
        until("it is judged", () -> desk.label("status").text().equals("Judged"));
        allNamed("case", desk.target());
        desk.menuItemWithPath("Look", "Size of type", "300 %").click();
        for (String view : new String[] {"Look closely", "Compare", "Case"}) {
            desk.tabbedPane("views").selectTab(view);
            allNamed(view + " at 300 %", desk.target());
        }
        desk.close();
    }

    @ParameterizedTest
    @ValueSource(ints = {100, 300})
    void everythingInTheDialogsHasAName(int percent) throws IOException {
        Files.writeString(demo.resolve("bench.csv"), "t,P1\n0,1\n0.1,1\n");
        size = percent;
        try (DeskState state = DeskState.in(home)) {
            state.theme(new Theme(percent > 200, percent));
        }
        FrameFixture desk = openDesk();
        choose(desk, demo.resolve("bench.csv"));
        DialogFixture dialog = desk.dialog("columns");
        allNamed("columns", dialog.target());
        dialog.button("leave columns").click();
        until("left out", () -> desk.label("status").text().equals("0 recordings brought in"));
        desk.button("refused").click();
        dialog = desk.dialog("refused list");
        allNamed("refused", dialog.target());
        dialog.button("confirm refused list").click();
        desk.menuItemWithPath("Help", "Keys").click();
        dialog = desk.dialog("keys");
        allNamed("keys", dialog.target());
        dialog.button("confirm keys").click();
        desk.menuItemWithPath("Help", "Before anybody pumps").click();
        dialog = desk.dialog("cautions");
        allNamed("cautions", dialog.target());
        dialog.button("confirm cautions").click();
        desk.menuItemWithPath("Change", "State leaks at…").click();
        JOptionPaneFixture asks = desk.optionPane();
        allNamed("state leaks at", SwingUtilities.getWindowAncestor(asks.target()));
        asks.cancelButton().click();
        desk.menuItemWithPath("Work", "Fetch from a logger…").click();
        asks = desk.optionPane();
        allNamed("which logger", SwingUtilities.getWindowAncestor(asks.target()));
        asks.cancelButton().click();
        choose(desk, demo.resolve("08-thistle-clamp.csv"));
        until("it is there", () -> desk.label("status").text().equals("1 recording brought in"));
        if (percent > 200) {
            desk.tabbedPane("beside the list").selectTab("Leak and setup");
        }
        desk.tabbedPane("beside the trace").selectTab("Setup");
        desk.button("work out volume").click();
        dialog = desk.dialog("trapped volume");
        allNamed("trapped volume", dialog.target());
        dialog.button("leave volume").click();
        desk.menuItemWithPath("Work", "Export samples and results…").click();
        JFileChooserFixture chooser = desk.fileChooser("choose export");
        allNamed("beside the files", chooser.target().getAccessory());
        chooser.cancel();
        robot.pressAndReleaseKey(KeyEvent.VK_F9);
        Window lesson = WindowFinder.findFrame("class view")
                .withTimeout(20, TimeUnit.SECONDS)
                .using(robot)
                .target();
        until("it is shown", lesson::isShowing);
        allNamed("class view", lesson);
        desk.close();
    }

    private void allNamed(String where, Container in) {
        if (in instanceof Window window) {
            Screens.keep(window, "named-" + where.replace(' ', '-').replace("%", "percent") + "-" + size);
        }
        List<String> nameless = new ArrayList<>();
        int[] looked = {0};
        GuiActionRunner.execute(() -> walk(in, nameless, looked));
        assertEquals(List.of(), nameless, where);
        assertTrue(looked[0] > 0, where + ": only " + looked[0] + " looked at");
    }

    private static void walk(Container in, List<String> nameless, int[] looked) {
        for (Component each : in.getComponents()) {
            if (!each.isVisible()) {
                continue;
            }
            if (tells(each)) {
                looked[0]++;
                String name = each.getAccessibleContext().getAccessibleName();
                if (name == null || name.isBlank()) {
                    nameless.add(each.getClass().getName() + " named " + each.getName());
                }
            }
            // What a choice, a table or a scroll bar is made of is told as one with it.
            boolean isWhole = each instanceof JComboBox
                    || each instanceof JTable
                    || each instanceof JScrollBar
                    || each instanceof JFileChooser;
            if (each instanceof Container inner && !isWhole) {
                walk(inner, nameless, looked);
            }
            if (each instanceof JMenuBar bar) {
                for (int i = 0; i < bar.getMenuCount(); i++) {
                    menu(bar.getMenu(i), nameless);
                }
            }
        }
    }

    private static void menu(JMenu menu, List<String> nameless) {
        for (Component each : menu.getMenuComponents()) {
            if (each instanceof AbstractButton item
                    && item.getAccessibleContext().getAccessibleName().isBlank()) {
                nameless.add("an item of " + menu.getText());
            }
            if (each instanceof JMenu inner) {
                menu(inner, nameless);
            }
        }
    }

    /** Whether a person works it or reads it, and so has to be told what it is. */
    private static boolean tells(Component each) {
        boolean isPartOfDivider = each.getParent() != null
                && each.getParent().getClass().getName().contains("Divider");
        return !isPartOfDivider
                && (each instanceof AbstractButton
                        || each instanceof JTextComponent
                        || each instanceof JComboBox
                        || each instanceof JList
                        || each instanceof JTable
                        || each instanceof JTabbedPane
                        || each instanceof JProgressBar
                        || each instanceof Drawing
                        || (each instanceof JComponent
                                && each.getClass().getName().contains("ChartPanel")));
    }
}
