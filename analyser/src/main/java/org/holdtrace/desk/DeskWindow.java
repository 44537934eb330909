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
import java.util.function.Consumer;
import java.util.function.Function;
import javax.swing.JFrame;
import javax.swing.JOptionPane;
import javax.swing.JPanel;
import javax.swing.JTabbedPane;
import javax.swing.SwingUtilities;
import javax.swing.SwingWorker;
import javax.swing.WindowConstants;
import org.holdtrace.desk.classroom.ClassWindow;
import org.holdtrace.desk.logger.LoggerMemory;
import org.holdtrace.desk.look.Theme;
import org.holdtrace.desk.work.CaseWork;
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
    private final CaseView caseView;
    private Theme theme;
    private SwingWorker<?, ?> writing;
    private int before;
    private boolean cautionsRead;

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
        arrivals = new Arrivals(
                frame, state, status, changes, drafts, this::theme, workspace::chosen, this::isBusy, this::newMenu);
        welcome = new WelcomePane(arrivals::chooseFiles, this::goOn);
        tabs = new JTabbedPane();
        before = state.open().size();
        state.onTrouble(e -> SwingUtilities.invokeLater(() -> status.idle(
                "Not remembered: " + Failures.sentence(state.folder().toString(), e))));
        views.add(new AnalystView(workspace, changes, welcome));
        views.add(new CompareView(workspace));
        caseView = new CaseView(this::judge, this::judgeAgain, this::reportOnCase, this::planTest, this::caseAsJson);
        views.add(caseView);
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
        look(theme, state.get(UNITS, METRIC));
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
        return state.get(UNITS, METRIC);
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
        boolean changed = !next.equals(theme);
        theme = next;
        if (changed) {
            views.forEach(DeskView::beforeLook);
            theme.install();
            // What is not in the window at the moment is out of the look's reach.
            SwingUtilities.updateComponentTreeUI(welcome);
        }
        state.theme(theme);
        ShownUnits units = shownUnits(nextUnits);
        state.put(UNITS, nextUnits);
        welcome.look(theme, before);
        for (DeskView view : views) {
            view.look(theme, units);
        }
        newMenu();
        frame.repaint();
    }

    private void newMenu() {
        frame.setJMenuBar(DeskMenu.of(this));
        frame.getRootPane().revalidate();
    }

    private static ShownUnits shownUnits(String text) {
        try {
            return ShownUnits.parse(text);
        } catch (QuantityException e) {
            return ShownUnits.METRIC;
        }
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
        if (paths.isEmpty() || isBusy()) {
            return;
        }
        ask.apply(paths).ifPresent(words -> {
            List<String> asked = new ArrayList<>(words);
            asked.addAll(asking.words());
            call(what, asked, told -> {});
        });
    }

    /** Lets somebody choose a case, and judges it. */
    void judge() {
        if (!isBusy()) {
            output.chooseCase().ifPresent(file -> judge(file, true));
        }
    }

    private void judgeAgain() {
        caseView.judged().ifPresent(each -> judge(each.file(), false));
    }

    private void judge(Path file, boolean bringToFront) {
        if (isBusy()) {
            return;
        }
        status.working("Judging " + file.getFileName(), 0, 0);
        status.nothingRefused();
        // A case reads what stands beside its recordings: first what was changed last has to be there.
        changes.whenKept(() -> {
            CaseWork work = new CaseWork(file, shownUnits(units()), new Judging(bringToFront));
            writing = work;
            work.execute();
        });
    }

    private void reportOnCase() {
        if (!isBusy()) {
            caseView.judged()
                    .flatMap(each -> output.report(List.of(each.file()), units()))
                    .ifPresent(words -> call("Writing the report", words, told -> {}));
        }
    }

    private void planTest(int number) {
        if (!isBusy()) {
            caseView.judged()
                    .flatMap(each -> output.plan(each.file(), number))
                    .ifPresent(words -> call("Writing the sheet", words, told -> {}));
        }
    }

    private void caseAsJson() {
        Optional<CaseWork.Judged> judged = caseView.judged();
        if (judged.isEmpty() || isBusy()) {
            return;
        }
        Path file = judged.get().file();
        output.caseJson(file)
                .ifPresent(to -> call(
                        "Judging",
                        List.of("case", file.toString(), "--json"),
                        told -> output.write(to, told.out(), this::written)));
    }

    /** Lets somebody choose a simulated line; its session is written and comes onto the desk. */
    void simulate() {
        if (!isBusy()) {
            output.simulate()
                    .ifPresent(words -> call("Simulating", words, told -> {
                        if (told.exitCode() == 0) {
                            arrivals.bringIn(List.of(Path.of(words.get(words.size() - 1))));
                        }
                    }));
        }
    }

    /** What is asked of all results beyond the setups. */
    Asking asking() {
        return asking;
    }

    private void call(String what, List<String> words, Consumer<Commands.Told> results) {
        status.working(what, 0, 0);
        status.nothingRefused();
        for (OpenRecording each : workspace.recordings()) {
            changes.draftOf(each)
                    .filter(draft -> words.contains(each.path().toString()))
                    .ifPresent(draft ->
                            status.refuse(each.path() + ": read without what is kept only as a draft in " + draft));
        }
        // The command reads what stands beside the recordings: first what was changed last has to be there.
        changes.whenKept(() -> writing = output.call(words, results, this::written));
    }

    private void written(String sentence, List<String> problems) {
        writing = null;
        problems.forEach(status::refuse);
        status.idle(sentence);
    }

    private boolean isBusy() {
        if (arrivals.isBusy() || writing != null) {
            status.say("Something is still being done: wait for it, or stop it first");
            return true;
        }
        return false;
    }

    private void goOn() {
        arrivals.bringIn(state.open());
    }

    private void cancel() {
        arrivals.cancel();
        if (writing != null) {
            writing.cancel(true);
        }
    }

    private void remember() {
        List<Path> open = new ArrayList<>();
        for (OpenRecording each : workspace.recordings()) {
            open.add(each.path());
        }
        state.open(open);
    }

    /** What {@link CaseWork} has to tell. */
    private final class Judging implements CaseWork.Receiver {
        private final boolean bringToFront;

        Judging(boolean bringToFront) {
            this.bringToFront = bringToFront;
        }

        @Override
        public void reading(String name, int number, int count) {
            status.reading(name, number, count);
        }

        @Override
        public void judged(CaseWork.Judged judged) {
            written("Judged", judged.refused());
            caseView.show(judged);
            if (bringToFront) {
                tabs.setSelectedComponent(caseView.component());
            }
        }

        @Override
        public void failed(String sentence) {
            written("Not judged", List.of(sentence));
        }

        @Override
        public void stopped() {
            written("Stopped", List.of());
        }
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
        new ClassWindow(theme, this::cautionsRead, Desk.PROGRAM, new LoggerMemory(state)).open();
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
