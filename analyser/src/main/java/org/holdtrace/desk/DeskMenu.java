package org.holdtrace.desk;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import javax.swing.ButtonGroup;
import javax.swing.JComponent;
import javax.swing.JMenu;
import javax.swing.JMenuBar;
import javax.swing.JMenuItem;
import javax.swing.JRadioButtonMenuItem;
import org.holdtrace.desk.look.Keys;
import org.holdtrace.desk.look.Theme;
import org.holdtrace.desk.work.Changes;
import org.holdtrace.desk.work.DeskView;
import org.holdtrace.desk.work.OpenRecording;

/** The menus of the window. */
final class DeskMenu {
    private static final List<Integer> SIZES = List.of(100, 125, 150, 200, 250, 300);
    private static final List<String> UNITS = List.of("bar, cm3", "bar, in3", "psi, cm3", "psi, in3");
    private static final String KEYS = """
            Anywhere
            Ctrl+O   bring in recordings
            Ctrl+L   fetch the sessions of a logger
            Ctrl+W   take the recording that is looked at off the desk
            Ctrl+J   judge a case: several hold tests of one machine
            Ctrl+P   a report on the recording that is looked at
            Ctrl+I   where the figures that are shown come from
            Ctrl+Z, Ctrl+Y   take the last change back, do it again
            Ctrl+D   light or dark
            Ctrl+plus, Ctrl+minus   larger and smaller type
            Alt+1, Alt+2, …   the views
            Tab, Shift+Tab   from one control to the next
            F9   the class view
            F1   these keys

            On the trace and on the list
            ↑ and ↓   another hold test
            + and −   nearer and farther
            ← and →   earlier and later
            Home   all of it (on the trace)
            1 and 2   set a cursor
            Ctrl+← and Ctrl+→   move the cursor that was set last
            B and Shift+B   choose a boundary of two phases
            Shift+← and Shift+→   move that boundary
            Esc   let go of it""";

    private DeskMenu() {}

    static JMenuBar of(DeskWindow desk) {
        JMenuBar bar = new JMenuBar();
        bar.add(work(desk));
        bar.add(change(desk));
        bar.add(look(desk));
        bar.add(help(desk));
        return bar;
    }

    private static JMenu work(DeskWindow desk) {
        JMenu menu = menu("Work", 'W');
        menu.add(item("Bring in recordings…", "ctrl O", desk.arrivals()::chooseFiles));
        menu.add(item("Fetch from a logger…", "ctrl L", desk.arrivals()::fetch));
        JMenu recent = menu("Brought in lately", 'L');
        for (Path path : desk.recent()) {
            recent.add(item(path.toString(), null, () -> desk.arrivals().bringIn(List.of(path))));
        }
        recent.setEnabled(recent.getItemCount() > 0);
        menu.add(recent);
        menu.add(item(
                "Take off the desk",
                "ctrl W",
                () -> desk.workspace().chosen().map(OpenRecording::path).ifPresent(desk.changes()::close)));
        menu.addSeparator();
        menu.add(
                item("Report on this recording…", "ctrl P", () -> desk.written().report(false)));
        menu.add(item("Report on all on the desk…", null, () -> desk.written().report(true)));
        menu.add(item("Pictures of all hold tests…", null, desk.written()::pictures));
        menu.add(item("Export samples and results…", null, desk.written()::export));
        menu.addSeparator();
        menu.add(item("Judge a case…", "ctrl J", desk.cases()::judge));
        menu.add(item("Simulate a session…", null, desk.written()::simulate));
        menu.add(item("Class view", "F9", desk::openClassView));
        menu.addSeparator();
        menu.add(item("Leave", "ctrl Q", desk::close));
        return menu;
    }

    private static JMenu change(DeskWindow desk) {
        JMenu menu = menu("Change", 'C');
        Changes changes = desk.changes();
        menu.add(item("Undo", "ctrl Z", changes::undo));
        menu.add(item("Do again", "ctrl Y", changes::redo));
        menu.addSeparator();
        menu.add(item("Boundaries of this hold test as found", null, desk::boundariesAsFound));
        menu.add(item("Setup from a file…", null, desk.arrivals()::chooseSetup));
        menu.addSeparator();
        menu.add(item("State leaks at…", null, desk.asking()::askConditions));
        menu.add(item("Take a line check off…", null, desk.asking()::askLineCheck));
        menu.add(item("Without a line check", null, desk.asking()::withoutLineCheck));
        nameChanges(menu, changes);
        return menu;
    }

    /** Says in {@code bar} what would be taken back and done again. */
    static void nameChanges(JMenuBar bar, Changes changes) {
        for (int i = 0; bar != null && i < bar.getMenuCount(); i++) {
            if ("Change".equals(bar.getMenu(i).getName())) {
                nameChanges(bar.getMenu(i), changes);
            }
        }
    }

    private static void nameChanges(JMenu menu, Changes changes) {
        name(menu.getItem(0), "Undo", changes.undoable());
        name(menu.getItem(1), "Do again", changes.redoable());
    }

    private static void name(JMenuItem item, String verb, Optional<String> what) {
        item.setText(verb + what.map(each -> ": " + each).orElse(""));
        item.setEnabled(what.isPresent());
    }

    private static JMenu look(DeskWindow desk) {
        JMenu menu = menu("Look", 'L');
        Theme theme = desk.theme();
        menu.add(item(
                theme.dark() ? "Light" : "Dark",
                "ctrl D",
                () -> desk.look(new Theme(!theme.dark(), theme.textPercent()), desk.units())));
        JMenu sizes = menu("Size of type", 'S');
        ButtonGroup group = new ButtonGroup();
        for (int percent : SIZES) {
            JRadioButtonMenuItem item = new JRadioButtonMenuItem(percent + " %", percent == theme.textPercent());
            item.addActionListener(event -> desk.look(new Theme(theme.dark(), percent), desk.units()));
            group.add(item);
            sizes.add(item);
        }
        menu.add(sizes);
        menu.add(item("Larger", "ctrl PLUS", () -> resize(desk, 1)));
        menu.add(item("Smaller", "ctrl MINUS", () -> resize(desk, -1)));
        JMenu units = menu("Units", 'U');
        ButtonGroup shown = new ButtonGroup();
        for (String each : UNITS) {
            JRadioButtonMenuItem item = new JRadioButtonMenuItem(each.replace("3", "³"), each.equals(desk.units()));
            item.addActionListener(event -> desk.look(theme, each));
            shown.add(item);
            units.add(item);
        }
        menu.add(units);
        List<DeskView> views = desk.views();
        if (views.size() > 1) {
            menu.addSeparator();
            for (int i = 0; i < views.size(); i++) {
                int index = i;
                menu.add(item(views.get(i).title(), "alt " + (i + 1), () -> desk.front(index)));
            }
        }
        return menu;
    }

    private static void resize(DeskWindow desk, int steps) {
        int percent = desk.theme().textPercent();
        int next = percent;
        for (int each : SIZES) {
            if (steps < 0 && each < percent) {
                next = each;
            } else if (steps > 0 && each > percent) {
                next = each;
                break;
            }
        }
        if (next != percent) {
            desk.look(new Theme(desk.theme().dark(), next), desk.units());
        }
    }

    private static JMenu help(DeskWindow desk) {
        JMenu menu = menu("Help", 'H');
        menu.add(item(
                "Keys",
                "F1",
                () -> new ReadingDialog(desk.frame(), desk.theme(), "keys", "Keys", Keys.named(KEYS), "Close").ask()));
        menu.add(item("Where these figures come from", "ctrl I", desk::showOrigins));
        menu.add(item("Before anybody pumps", null, desk::showCautions));
        return menu;
    }

    private static JMenu menu(String title, char mnemonic) {
        JMenu menu = new JMenu(title);
        menu.setName(title);
        menu.setMnemonic(mnemonic);
        return menu;
    }

    /** Keys that mean the same as one of the menu's but are not shown in it. */
    static void bindOtherKeys(DeskWindow desk) {
        for (String keys : Keys.same("ctrl PLUS")) {
            bind(desk, keys, () -> resize(desk, 1));
        }
        for (String keys : Keys.same("ctrl MINUS")) {
            bind(desk, keys, () -> resize(desk, -1));
        }
    }

    private static void bind(DeskWindow desk, String keys, Runnable action) {
        desk.frame()
                .getRootPane()
                .registerKeyboardAction(event -> action.run(), Keys.of(keys), JComponent.WHEN_IN_FOCUSED_WINDOW);
    }

    private static JMenuItem item(String title, String keys, Runnable action) {
        JMenuItem item = new JMenuItem(title);
        item.setName(title);
        if (keys != null) {
            item.setAccelerator(Keys.of(keys));
        }
        item.addActionListener(event -> action.run());
        return item;
    }
}
