package org.holdtrace.desk;

import java.awt.BorderLayout;
import java.awt.Component;
import java.awt.Dimension;
import java.awt.Rectangle;
import java.awt.event.WindowAdapter;
import java.awt.event.WindowEvent;
import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import javax.swing.JFrame;
import javax.swing.JOptionPane;
import javax.swing.JPanel;
import javax.swing.JTabbedPane;
import javax.swing.SwingUtilities;
import javax.swing.WindowConstants;
import org.holdtrace.desk.classroom.ClassWindow;
import org.holdtrace.desk.logger.LoggerMemory;
import org.holdtrace.desk.look.Keyboard;
import org.holdtrace.desk.look.Theme;
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
    private static final int SMALLEST_WIDTH = 720;
    private static final int SMALLEST_HEIGHT = 480;

    private final JFrame frame;
    private final DeskState state;
    private final Runnable whenClosed;
    private final Workspace workspace = new Workspace();
    private final Changes changes;
    private final WelcomePane welcome;
    private final StatusLine status;
    private final List<DeskView> views = new ArrayList<>();
    private final JTabbedPane tabs;
    private final Output output;
    private final Arrivals arrivals;
    private final Asking asking;
    private final Calls calls;
    private final Cases cases;
    private Theme theme;
    private int before;
    private boolean cautionsRead;
    private ClassWindow classWindow;

    DeskWindow(DeskState state, Commands commands, Runnable whenClosed) {
        this.state = state;
        this.whenClosed = whenClosed;
        Drafts drafts = new Drafts(state.folder().resolve("drafts"));
        changes = new Changes(workspace, drafts, new NeedsAPerson());
        theme = state.theme();
        // First of all: a component takes the look that is installed when it is made.
        theme.install();
        frame = new JFrame("Holdtrace");
        output = new Output(frame, state, commands);
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
        frame.setMinimumSize(new Dimension(SMALLEST_WIDTH, SMALLEST_HEIGHT));
        frame.setBounds(bounds());
        if (state.get("maximised", "false").equals("true")) {
            frame.setExtendedState(JFrame.MAXIMIZED_BOTH);
        }
        DeskMenu.bindOtherKeys(this);
        look(theme, units());
        tellFront();
        asking.restore();
        frame.setVisible(true);
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

    /** Writes a report on the recording that is looked at, or on all. */
    void report(boolean all) {
        write("Writing the report", paths -> output.report(paths, units()), all);
    }

    /** Writes samples and results of all recordings. */
    void export() {
        write("Exporting", output::export, true);
    }

    /** Writes a picture of each hold test of all recordings. */
    void pictures() {
        write("Drawing", output::pictures, true);
    }

    private void write(String what, Function<List<Path>, Optional<List<String>>> ask, boolean all) {
        List<Path> paths = new ArrayList<>();
        for (OpenRecording each : workspace.recordings()) {
            if (all || workspace.chosen().filter(each::equals).isPresent()) {
                paths.add(each.path());
            }
        }
        if (paths.isEmpty() || calls.isBusy()) {
            return;
        }
        ask.apply(paths).ifPresent(words -> {
            List<String> asked = new ArrayList<>(words);
            asked.addAll(asking.words());
            calls.call(what, asked, told -> {});
        });
    }

    /** Lets somebody choose a simulated line; its session is written and comes onto the desk. */
    void simulate() {
        if (!calls.isBusy()) {
            output.simulate()
                    .ifPresent(words -> calls.call("Simulating", words, told -> {
                        if (told.exitCode() == 0) {
                            arrivals.bringIn(List.of(Path.of(words.get(words.size() - 1))));
                        }
                    }));
        }
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

    /** Shows the usual cautions. */
    void showCautions() {
        SafetyDialog.ask(frame.getContentPane(), theme, "Understood");
    }

    /** The view for the back of a room, a window of its own. */
    void openClassView() {
        if (classWindow == null) {
            classWindow = new ClassWindow(theme, this::cautionsRead, Desk.PROGRAM, new LoggerMemory(state));
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

    private Rectangle bounds() {
        Rectangle screen = frame.getGraphicsConfiguration().getBounds();
        int width = state.number("width", SMALLEST_WIDTH, screen.width, Math.min(1366, screen.width));
        int height = state.number("height", SMALLEST_HEIGHT, screen.height, Math.min(860, screen.height - 40));
        // A window remembered from a screen that is gone comes back onto this one.
        int x = state.number("x", screen.x, screen.x + screen.width - width, screen.x);
        int y = state.number("y", screen.y, screen.y + screen.height - height, screen.y);
        return new Rectangle(x, y, width, height);
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
        boolean maximised = (frame.getExtendedState() & JFrame.MAXIMIZED_BOTH) != 0;
        state.put("maximised", Boolean.toString(maximised));
        if (!maximised) {
            Rectangle bounds = frame.getBounds();
            state.put("x", Integer.toString(bounds.x));
            state.put("y", Integer.toString(bounds.y));
            state.put("width", Integer.toString(bounds.width));
            state.put("height", Integer.toString(bounds.height));
        }
        frame.dispose();
        state.close();
        whenClosed.run();
    }

    /** What {@link Changes} cannot settle alone. */
    private final class NeedsAPerson implements Changes.Trouble {
        private final Set<Path> asking = new HashSet<>();

        @Override
        public void changedByAnother(Path recording, Path file) {
            Optional<OpenRecording> open = workspace.recordings().stream()
                    .filter(each -> each.path().equals(recording))
                    .findFirst();
            if (open.isEmpty() || !asking.add(file)) {
                return;
            }
            String[] answers = {"Take what stands there", "Write over it", "Decide later"};
            int answer = JOptionPane.showOptionDialog(
                    frame,
                    file.getFileName() + " was changed by another program since the desk read it,\n"
                            + "so your last change is not kept in it yet.",
                    "Changed by another",
                    JOptionPane.DEFAULT_OPTION,
                    JOptionPane.WARNING_MESSAGE,
                    null,
                    answers,
                    answers[2]);
            asking.remove(file);
            if (answer == 0) {
                changes.takeTheirs(open.get());
            } else if (answer == 1) {
                changes.writeOver(open.get());
            }
        }

        @Override
        public void keptAsDraft(Path file, Path draft, IOException why) {
            status.refuse(Failures.sentence(file.toString(), why) + ". What was changed is kept as a draft in " + draft
                    + ": the desk finds it there again, the commands do not look there.");
            status.idle("Kept as a draft: " + file.getFileName() + " cannot be written");
        }

        @Override
        public void notKept(Path file, IOException why) {
            status.idle("Not kept: " + Failures.sentence(file.toString(), why));
        }

        @Override
        public void notWorkedOut(Path recording, Throwable why) {
            status.idle(Failures.sentence(recording.toString(), why));
        }
    }
}
