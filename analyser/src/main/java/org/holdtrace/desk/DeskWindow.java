package org.holdtrace.desk;

import java.awt.BorderLayout;
import java.awt.Component;
import java.awt.Desktop;
import java.awt.Toolkit;
import java.awt.event.WindowAdapter;
import java.awt.event.WindowEvent;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import javax.swing.JFrame;
import javax.swing.JPanel;
import javax.swing.JTabbedPane;
import javax.swing.SwingUtilities;
import javax.swing.WindowConstants;
import org.holdtrace.desk.classroom.ClassWindow;
import org.holdtrace.desk.logger.LoggerMemory;
import org.holdtrace.desk.look.InSight;
import org.holdtrace.desk.look.Keyboard;
import org.holdtrace.desk.look.Sourced;
import org.holdtrace.desk.look.Theme;
import org.holdtrace.desk.look.WindowIcon;
import org.holdtrace.desk.work.Changes;
import org.holdtrace.desk.work.Commands;
import org.holdtrace.desk.work.Described;
import org.holdtrace.desk.work.DeskState;
import org.holdtrace.desk.work.DeskView;
import org.holdtrace.desk.work.Drafts;
import org.holdtrace.desk.work.OpenRecording;
import org.holdtrace.desk.work.Workspace;
import org.holdtrace.library.Failures;
import org.holdtrace.quantity.QuantityException;
import org.holdtrace.wording.ShownUnits;

/** The desk's window: its views in tabs, its menus, what is asked of the commands. On the event thread. */
final class DeskWindow {
    private static final String UNITS = "units";
    private static final String METRIC = "bar, cm3";

    private final JFrame frame;
    private final DeskState state;
    private final WindowPlace place;
    private final Runnable whenClosed;
    private final Workspace workspace = new Workspace();
    private final Changes changes;
    private final WelcomePane welcome;
    private final StatusLine status;
    private final List<DeskView> views = new ArrayList<>();
    private final JTabbedPane tabs;
    private final Arrivals arrivals;
    private final Asking asking;
    private final Calls calls;
    private final Cases cases;
    private final Written written;
    private final InSight inSight = InSight.begin();
    private Theme theme;
    private int before;
    private boolean cautionsRead;
    private ClassWindow classWindow;

    DeskWindow(DeskState state, Commands commands, Runnable whenClosed) {
        this.state = state;
        this.whenClosed = whenClosed;
        Drafts drafts = new Drafts(state.folder().resolve("drafts"));
        changes = new Changes(workspace, drafts, new NeedsAPerson(this));
        theme = state.theme(Theme.firstPercent(Toolkit.getDefaultToolkit().getScreenSize().height));
        // First of all: a component takes the look that is installed when it is made.
        theme.install();
        frame = new JFrame("Holdtrace");
        frame.setIconImages(WindowIcon.images());
        place = new WindowPlace(frame, state);
        Output output = new Output(frame, state, commands);
        status = new StatusLine(this::cancel, this::showRefused);
        calls = new Calls(status, workspace, changes, output, this::isArriving);
        arrivals = new Arrivals(
                frame, state, status, changes, drafts, this::theme, workspace::chosen, calls::isBusy, this::newMenu);
        welcome = new WelcomePane(arrivals::chooseFiles, this::goOn);
        tabs = new JTabbedPane();
        before = state.open().size();
        state.onTrouble(e -> SwingUtilities.invokeLater(() -> status.idle(
                "Not remembered: " + Failures.sentence(state.folder().toString(), e))));
        views.add(new AnalystView(workspace, changes, welcome));
        views.add(new CompareView(workspace));
        cases = new Cases(calls, output, status, this::units, this::frontCase);
        views.add(cases.view());
        asking = new Asking(frame, state, changes, status::refuse);
        written = new Written(workspace, calls, output, asking, this::units, arrivals::bringIn);
        workspace.addListener(this::remember);
        changes.addListener(this::changed);
    }

    /** Shows the window. */
    void open() {
        frame.setName("desk");
        frame.setDefaultCloseOperation(WindowConstants.DO_NOTHING_ON_CLOSE);
        frame.addWindowListener(new WindowAdapter() {
            @Override
            public void windowOpened(WindowEvent event) {
                welcome.requestFocusInWindow();
            }

            @Override
            public void windowClosing(WindowEvent event) {
                close();
            }
        });
        onQuit();
        tabs.setName("views");
        for (DeskView view : views) {
            tabs.addTab(view.title(), view.component());
        }
        tabs.addChangeListener(event -> tellFront());
        JPanel content = new JPanel(new BorderLayout());
        content.add(tabs, BorderLayout.CENTER);
        content.add(status, BorderLayout.SOUTH);
        content.setTransferHandler(arrivals.dropped());
        frame.setContentPane(content);
        place.restore(theme);
        DeskMenu.bindOtherKeys(this);
        look(theme, units());
        tellFront();
        asking.restore();
        frame.setVisible(true);
    }

    /** Where the system has a Quit of its own, as a Mac does, it closes the window as the window's own would. */
    private void onQuit() {
        if (Desktop.isDesktopSupported() && Desktop.getDesktop().isSupported(Desktop.Action.APP_QUIT_HANDLER)) {
            Desktop.getDesktop().setQuitHandler((event, response) -> {
                close();
                response.performQuit();
            });
        }
    }

    /** The window itself. */
    JFrame frame() {
        return frame;
    }

    /** The recordings on the desk. */
    Workspace workspace() {
        return workspace;
    }

    /** What was changed, and can be taken back. */
    Changes changes() {
        return changes;
    }

    /** The look. */
    Theme theme() {
        return theme;
    }

    /** The units as they are remembered: "psi, in3". */
    String units() {
        String remembered = state.get(UNITS, METRIC);
        try {
            ShownUnits.parse(remembered);
            return remembered;
        } catch (QuantityException e) {
            return METRIC; // somebody wrote into the desk's memory
        }
    }

    /** The way recordings come in. */
    Arrivals arrivals() {
        return arrivals;
    }

    /** What was brought in lately. */
    List<Path> recent() {
        return state.recent();
    }

    /** The views, in the order of their tabs. */
    List<DeskView> views() {
        return List.copyOf(views);
    }

    /** Brings the view at {@code index} to the front. */
    void front(int index) {
        tabs.setSelectedIndex(index);
    }

    /** Changes look and units, and remembers both. */
    void look(Theme next, String nextUnits) {
        Keyboard.staysOver(frame.getContentPane(), () -> lookAnew(next, nextUnits));
        newMenu();
        frame.repaint();
    }

    private void lookAnew(Theme next, String nextUnits) {
        boolean changed = !next.equals(theme);
        theme = next;
        if (changed) {
            views.forEach(DeskView::beforeLook);
            theme.install();
            // What is not in the window at the moment is out of the look's reach.
            SwingUtilities.updateComponentTreeUI(welcome);
        }
        state.theme(theme);
        ShownUnits units = ShownUnits.parse(nextUnits);
        state.put(UNITS, nextUnits);
        welcome.look(theme, before);
        for (DeskView view : views) {
            view.look(theme, units);
        }
    }

    private void newMenu() {
        frame.setJMenuBar(DeskMenu.of(this));
        frame.getRootPane().revalidate();
    }

    /** Reports, pictures, exports, sessions that are simulated. */
    Written written() {
        return written;
    }

    /** The cases. */
    Cases cases() {
        return cases;
    }

    private void frontCase() {
        tabs.setSelectedComponent(cases.view().component());
    }

    private boolean isArriving() {
        return arrivals.isBusy();
    }

    /** What is asked of all results beyond the setups. */
    Asking asking() {
        return asking;
    }

    private void goOn() {
        arrivals.bringIn(state.open());
    }

    private void cancel() {
        arrivals.cancel();
        calls.cancel();
    }

    /** Where it is said how things are. */
    StatusLine status() {
        return status;
    }

    private void remember() {
        List<Path> open = new ArrayList<>();
        for (OpenRecording each : workspace.recordings()) {
            open.add(each.path());
        }
        state.open(open);
    }

    private void showRefused(List<String> refused) {
        new ReadingDialog(frame, theme, "refused list", "Refused", String.join("\n\n", refused), "Close").ask();
    }

    /** Tells of all figures of the view in front where they come from, as each does on hover. */
    void showOrigins() {
        String words = Sourced.wordsOf(views.get(tabs.getSelectedIndex()).component());
        new ReadingDialog(
                        frame,
                        theme,
                        "origins",
                        "Where these figures come from",
                        words.isEmpty() ? "There are no figures here yet." : words,
                        "Close")
                .ask();
    }

    /** Shows the usual cautions. */
    void showCautions() {
        SafetyDialog.ask(frame.getContentPane(), theme, "Understood");
    }

    /** The view for the back of a room, a window of its own. */
    void openClassView() {
        if (classWindow == null) {
            classWindow = new ClassWindow(
                    theme, this::cautionsRead, Desk.PROGRAM, new LoggerMemory(state), state.get("folder", ""));
        }
        classWindow.open();
    }

    /** Whether somebody confirmed the cautions, which are shown until that was done once. */
    private boolean cautionsRead(Component over) {
        cautionsRead = cautionsRead || SafetyDialog.ask(over, theme, "Understood, begin");
        return cautionsRead;
    }

    private void tellFront() {
        for (int i = 0; i < views.size(); i++) {
            views.get(i).front(i == tabs.getSelectedIndex());
        }
    }

    /** Puts the boundaries of the hold test that is looked at back to where they were found. */
    void boundariesAsFound() {
        workspace
                .chosen()
                .ifPresent(recording -> changes.change(
                        recording,
                        "boundaries as found",
                        before -> new Described(before.sheet(), before.notes().asFound(workspace.chosenTest() + 1))));
    }

    private void changed() {
        DeskMenu.nameChanges(frame.getJMenuBar(), changes);
    }

    /** Closes the window and lets the program end; what was changed is kept first. */
    void close() {
        cancel();
        changes.close();
        if (classWindow != null) {
            classWindow.close();
        }
        place.remember();
        frame.dispose();
        inSight.close();
        state.close();
        whenClosed.run();
    }
}
