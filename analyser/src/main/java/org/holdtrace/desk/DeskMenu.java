package org.holdtrace.desk;

import java.nio.file.Path;
import java.util.List;
import javax.swing.ButtonGroup;
import javax.swing.JMenu;
import javax.swing.JMenuBar;
import javax.swing.JMenuItem;
import javax.swing.JRadioButtonMenuItem;
import javax.swing.KeyStroke;
import org.holdtrace.desk.look.Theme;
import org.holdtrace.desk.work.DeskView;
import org.holdtrace.desk.work.OpenRecording;

/** The menus of the window. */
final class DeskMenu {
    private static final List<Integer> SIZES = List.of(100, 125, 150, 200, 250, 300);
    private static final List<String> UNITS = List.of("bar, cm3", "bar, in3", "psi, cm3", "psi, in3");
    private static final String KEYS = """
            Anywhere
            Ctrl+O   bring in recordings
            Ctrl+W   take the recording that is looked at off the desk
            Ctrl+D   light or dark
            Ctrl+plus, Ctrl+minus   larger and smaller type
            Alt+1, Alt+2, …   the views
            Tab, Shift+Tab   from one control to the next
            F9   the class view
            F1   these keys

            On the trace
            + and −   nearer and farther
            ← and →   earlier and later
            Home   all of it
            1 and 2   set a cursor
            Ctrl+← and Ctrl+→   move the cursor that was set last

            On the list
            ↑ and ↓   another hold test""";

    private DeskMenu() {}

    static JMenuBar of(DeskWindow desk) {
        JMenuBar bar = new JMenuBar();
        bar.add(work(desk));
        bar.add(look(desk));
        bar.add(help(desk));
        return bar;
    }

    private static JMenu work(DeskWindow desk) {
        JMenu menu = menu("Work", 'W');
        menu.add(item("Bring in recordings…", "ctrl O", desk::chooseFiles));
        JMenu recent = menu("Brought in lately", 'L');
        for (Path path : desk.recent()) {
            recent.add(item(path.toString(), null, () -> desk.bringIn(List.of(path))));
        }
        recent.setEnabled(recent.getItemCount() > 0);
        menu.add(recent);
        menu.add(item(
                "Take off the desk",
                "ctrl W",
                () -> desk.workspace().chosen().map(OpenRecording::path).ifPresent(desk.workspace()::remove)));
        menu.addSeparator();
        menu.add(item("Class view", "F9", desk::openClassView));
        menu.addSeparator();
        menu.add(item("Leave", "ctrl Q", desk::close));
        return menu;
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
        menu.add(item("Keys", "F1", () -> WordsDialog.show(desk.frame(), desk.theme(), "Keys", KEYS)));
        menu.add(item("Before anybody pumps", null, desk::showCautions));
        return menu;
    }

    private static JMenu menu(String title, char mnemonic) {
        JMenu menu = new JMenu(title);
        menu.setName(title);
        menu.setMnemonic(mnemonic);
        return menu;
    }

    private static JMenuItem item(String title, String keys, Runnable action) {
        JMenuItem item = new JMenuItem(title);
        item.setName(title);
        if (keys != null) {
            item.setAccelerator(KeyStroke.getKeyStroke(keys));
        }
        item.addActionListener(event -> action.run());
        return item;
    }
}
