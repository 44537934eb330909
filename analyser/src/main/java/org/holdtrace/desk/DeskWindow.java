package org.holdtrace.desk;

import java.awt.BorderLayout;
import java.awt.Component;
import java.awt.Dimension;
import java.awt.Rectangle;
import java.awt.datatransfer.DataFlavor;
import java.awt.datatransfer.UnsupportedFlavorException;
import java.awt.event.WindowAdapter;
import java.awt.event.WindowEvent;
import java.io.File;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Consumer;
import java.util.function.Function;
import javax.swing.JFileChooser;
import javax.swing.JFrame;
import javax.swing.JOptionPane;
import javax.swing.JPanel;
import javax.swing.JTabbedPane;
import javax.swing.SwingUtilities;
import javax.swing.SwingWorker;
import javax.swing.TransferHandler;
import javax.swing.WindowConstants;
import org.holdtrace.desk.classroom.ClassWindow;
import org.holdtrace.desk.describe.ColumnsDialog;
import org.holdtrace.desk.logger.FetchWork;
import org.holdtrace.desk.logger.LoggerForm;
import org.holdtrace.desk.look.Theme;
import org.holdtrace.desk.work.BringIn;
import org.holdtrace.desk.work.Changes;
import org.holdtrace.desk.work.Commands;
import org.holdtrace.desk.work.Described;
import org.holdtrace.desk.work.DeskState;
import org.holdtrace.desk.work.DeskView;
import org.holdtrace.desk.work.OpenRecording;
import org.holdtrace.desk.work.Workspace;
import org.holdtrace.library.Failures;
import org.holdtrace.link.LinkKey;
import org.holdtrace.quantity.QuantityException;
import org.holdtrace.remote.LoggerAddress;
import org.holdtrace.session.CsvHead;
import org.holdtrace.session.CsvPlan;
import org.holdtrace.wording.ShownUnits;

/** The desk's window: its views in tabs, its menus, and the way recordings come in. On the event thread. */
final class DeskWindow {
    private static final String UNITS = "units";
    private static final String METRIC = "bar, cm3";
    private static final String LOGGERS = "loggers";
    private static final int MOST_LOGGERS = 8;
    private static final int SMALLEST_WIDTH = 720;
    private static final int SMALLEST_HEIGHT = 480;

    private final JFrame frame;
    private final DeskState state;
    private final Runnable whenClosed;
    private final Workspace workspace = new Workspace();
    private final Changes changes = new Changes(workspace, new NeedsAPerson());
    private final WelcomePane welcome;
    private final StatusLine status;
    private final List<DeskView> views = new ArrayList<>();
    private final JTabbedPane tabs;
    private final Output output;
    private final List<String> refused = new ArrayList<>();
    private Theme theme;
    private BringIn bringingIn;
    private FetchWork fetching;
    private SwingWorker<?, ?> writing;
    private int before;
    private boolean cautionsRead;

    DeskWindow(DeskState state, Commands commands, Runnable whenClosed) {
        this.state = state;
        this.whenClosed = whenClosed;
        theme = state.theme();
        // First of all: a component takes the look that is installed when it is made.
        theme.install();
        frame = new JFrame("Holdtrace");
        output = new Output(frame, state, commands);
        welcome = new WelcomePane(this::chooseFiles, this::goOn);
        status = new StatusLine(this::cancel, this::showRefused);
        tabs = new JTabbedPane();
        before = state.open().size();
        state.onTrouble(e -> SwingUtilities.invokeLater(() -> status.idle(
                "Not remembered: " + Failures.sentence(state.folder().toString(), e))));
        views.add(new AnalystView(workspace, changes, welcome));
        views.add(new CompareView(workspace));
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
        content.setTransferHandler(new Dropped());
        frame.setContentPane(content);
        frame.setMinimumSize(new Dimension(SMALLEST_WIDTH, SMALLEST_HEIGHT));
        frame.setBounds(bounds());
        if (state.get("maximised", "false").equals("true")) {
            frame.setExtendedState(JFrame.MAXIMIZED_BOTH);
        }
        DeskMenu.bindOtherKeys(this);
        look(theme, state.get(UNITS, METRIC));
        tellFront();
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
        frame.setJMenuBar(DeskMenu.of(this));
        frame.getRootPane().revalidate();
        frame.repaint();
    }

    private static ShownUnits shownUnits(String text) {
        try {
            return ShownUnits.parse(text);
        } catch (QuantityException e) {
            return ShownUnits.METRIC;
        }
    }

    /** Lets somebody choose files and folders, and brings them in. */
    void chooseFiles() {
        JFileChooser chooser = new JFileChooser(state.get("folder", ""));
        chooser.setName("choose recordings");
        chooser.setDialogTitle("Bring in recordings");
        chooser.setFileSelectionMode(JFileChooser.FILES_AND_DIRECTORIES);
        chooser.setMultiSelectionEnabled(true);
        if (chooser.showDialog(frame, "Bring in") == JFileChooser.APPROVE_OPTION) {
            state.put("folder", chooser.getCurrentDirectory().getPath());
            bringIn(paths(List.of(chooser.getSelectedFiles())));
        }
    }

    /** Asks for a logger and a folder, copies its sessions there and brings them in. */
    void fetch() {
        if (isBusy()) {
            return;
        }
        List<String> before = new ArrayList<>(List.of(state.get(LOGGERS, "").split("\n", -1)));
        before.removeIf(String::isBlank);
        LoggerForm form = new LoggerForm(before);
        while (form.ask(frame)) {
            try {
                LoggerAddress address = form.address();
                Optional<LinkKey> key = form.key();
                Optional<Path> folder = chooseFolder();
                if (folder.isPresent()) {
                    before.remove(form.where());
                    before.add(0, form.where());
                    state.put(LOGGERS, String.join("\n", before.subList(0, Math.min(before.size(), MOST_LOGGERS))));
                    refused.clear();
                    status.refused(0);
                    status.working("Reaching " + form.where(), 0, 1);
                    fetching = new FetchWork(() -> address.open("Holdtrace desk", key), folder.get(), new Fetched());
                    fetching.execute();
                }
                return;
            } catch (IllegalArgumentException e) {
                JOptionPane.showMessageDialog(frame, e.getMessage(), "Which logger?", JOptionPane.WARNING_MESSAGE);
            } catch (IOException e) {
                JOptionPane.showMessageDialog(
                        frame, Failures.sentence("the key", e), "Which logger?", JOptionPane.WARNING_MESSAGE);
            }
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
        ask.apply(paths).ifPresent(words -> call(what, words, results -> {}));
    }

    /** Judges several hold tests of one machine, as a case file puts them together, and shows what came of it. */
    void judge() {
        if (!isBusy()) {
            output.judge()
                    .ifPresent(words -> call(
                            "Judging",
                            words,
                            results -> new ReadingDialog(frame, theme, "case", "Case", results, "Close")
                                    .inColumns(theme)
                                    .ask()));
        }
    }

    private void call(String what, List<String> words, Consumer<String> results) {
        status.working(what, 0, 0);
        refused.clear();
        status.refused(0);
        // The command reads what stands beside the recordings: first what was changed last has to be there.
        changes.whenKept(() -> writing = output.call(words, results, this::written));
    }

    private void written(String sentence, List<String> problems) {
        writing = null;
        refused.addAll(problems);
        status.refused(refused.size());
        status.idle(sentence);
    }

    private Optional<Path> chooseFolder() {
        JFileChooser chooser = new JFileChooser(state.get("folder", ""));
        chooser.setName("choose folder");
        chooser.setDialogTitle("Copy the sessions into");
        chooser.setFileSelectionMode(JFileChooser.DIRECTORIES_ONLY);
        if (chooser.showDialog(frame, "Copy here") != JFileChooser.APPROVE_OPTION) {
            return Optional.empty();
        }
        state.put("folder", chooser.getSelectedFile().getPath());
        return Optional.of(chooser.getSelectedFile().toPath());
    }

    private boolean isBusy() {
        if (bringingIn != null || fetching != null || writing != null) {
            status.say("Something is still being done: wait for it, or stop it first");
            return true;
        }
        return false;
    }

    private void goOn() {
        bringIn(state.open());
    }

    /** Brings in recordings and folders of them, one call after the other. */
    void bringIn(List<Path> paths) {
        if (paths.isEmpty() || isBusy()) {
            return;
        }
        state.remember(paths);
        refused.clear();
        status.refused(0);
        begin(paths);
    }

    private void begin(List<Path> paths) {
        begin(paths, Map.of());
    }

    private void begin(List<Path> paths, Map<Path, CsvPlan> plans) {
        bringingIn = new BringIn(paths, plans, new Coming());
        bringingIn.execute();
    }

    private void cancel() {
        if (bringingIn != null) {
            bringingIn.cancel(true);
        }
        if (fetching != null) {
            fetching.cancel(true);
        }
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

    private void showRefused() {
        new ReadingDialog(frame, theme, "refused list", "Refused", String.join("\n\n", refused), "Close").ask();
    }

    /** Shows the usual cautions. */
    void showCautions() {
        SafetyDialog.ask(frame.getContentPane(), theme, "Understood");
    }

    /** The view for the back of a room, a window of its own. */
    void openClassView() {
        new ClassWindow(theme, this::cautionsRead, "Holdtrace desk").open();
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

    private static List<Path> paths(List<File> files) {
        List<Path> paths = new ArrayList<>();
        for (File file : files) {
            paths.add(file.toPath());
        }
        return paths;
    }

    /** What {@link BringIn} has to tell. */
    private final class Coming implements BringIn.Receiver {
        private final Map<List<String>, Map<Path, String>> asked = new LinkedHashMap<>();
        private final Map<List<String>, CsvHead> heads = new HashMap<>();
        private int came;

        @Override
        public void reading(String name, int number, int count) {
            status.working("Reading " + name + " (" + number + " of " + count + ")", number, count);
        }

        @Override
        public void ready(OpenRecording recording) {
            came++;
            changes.opened(recording);
        }

        @Override
        public void refused(Path path, Throwable reason, String sentence) {
            refused.add(sentence);
            status.refused(refused.size());
        }

        @Override
        public void asks(Path path, CsvHead head, String sentence) {
            asked.computeIfAbsent(head.names(), names -> new LinkedHashMap<>()).put(path, sentence);
            heads.put(head.names(), head);
        }

        /** Traces with one header are asked about once. */
        private Map<Path, CsvPlan> ask() {
            Map<Path, CsvPlan> plans = new LinkedHashMap<>();
            asked.forEach((names, paths) -> {
                Optional<CsvPlan> plan = ColumnsDialog.ask(frame, theme, heads.get(names), List.copyOf(paths.keySet()));
                paths.forEach((path, sentence) -> {
                    if (plan.isPresent()) {
                        plans.put(path, plan.get());
                    } else {
                        refused(path, null, sentence);
                    }
                });
            });
            return plans;
        }

        @Override
        public void finished(boolean cancelled) {
            bringingIn = null;
            Map<Path, CsvPlan> plans = cancelled ? Map.of() : ask();
            if (!plans.isEmpty()) {
                begin(List.copyOf(plans.keySet()), plans);
                return;
            }
            status.idle((cancelled ? "Stopped; " : "") + (came == 1 ? "1 recording" : came + " recordings")
                    + " brought in");
            frame.setJMenuBar(DeskMenu.of(DeskWindow.this));
            frame.getRootPane().revalidate();
        }
    }

    /** What {@link FetchWork} has to tell. */
    private final class Fetched implements FetchWork.Receiver {
        @Override
        public void progress(String name, long bytes, long ofBytes) {
            int permille = ofBytes == 0 ? 1000 : (int) (1000 * bytes / ofBytes);
            status.working("Copying " + name + ", " + permille / 10 + " %", permille, 1000);
        }

        @Override
        public void problem(String sentence) {
            refused.add(sentence);
            status.refused(refused.size());
        }

        @Override
        public void finished(List<Path> files, boolean stopped) {
            fetching = null;
            status.idle(
                    stopped
                            ? "Stopped; what has come is kept, and fetching again goes on from there"
                            : files.isEmpty() ? "Nothing was fetched" : files.size() + " sessions are here");
            if (!files.isEmpty()) {
                begin(files);
            }
        }
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
        public void notKept(Path file, IOException why) {
            status.idle("Not kept: " + Failures.sentence(file.toString(), why));
        }

        @Override
        public void notWorkedOut(Path recording, Throwable why) {
            status.idle(Failures.sentence(recording.toString(), why));
        }
    }

    /** Files dropped anywhere on the window. */
    private final class Dropped extends TransferHandler {
        private static final long serialVersionUID = 1L;

        @Override
        public boolean canImport(TransferSupport support) {
            return support.isDataFlavorSupported(DataFlavor.javaFileListFlavor);
        }

        @Override
        public boolean importData(TransferSupport support) {
            try {
                List<?> dropped = (List<?>) support.getTransferable().getTransferData(DataFlavor.javaFileListFlavor);
                List<Path> paths = new ArrayList<>();
                for (Object each : dropped) {
                    Path path = ((File) each).toPath();
                    if (Files.exists(path)) {
                        paths.add(path);
                    }
                }
                bringIn(paths);
                return true;
            } catch (UnsupportedFlavorException | IOException e) {
                status.idle("What was dropped could not be taken: " + e.getMessage());
                return false;
            }
        }
    }
}
