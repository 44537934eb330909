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
import java.util.List;
import javax.swing.JFileChooser;
import javax.swing.JFrame;
import javax.swing.JPanel;
import javax.swing.JTabbedPane;
import javax.swing.SwingUtilities;
import javax.swing.TransferHandler;
import javax.swing.WindowConstants;
import org.holdtrace.desk.classroom.ClassWindow;
import org.holdtrace.desk.look.Theme;
import org.holdtrace.desk.work.BringIn;
import org.holdtrace.desk.work.DeskState;
import org.holdtrace.desk.work.DeskView;
import org.holdtrace.desk.work.OpenRecording;
import org.holdtrace.desk.work.Workspace;
import org.holdtrace.quantity.QuantityException;
import org.holdtrace.wording.ShownUnits;

/** The desk's window: its views in tabs, its menus, and the way recordings come in. On the event thread. */
final class DeskWindow {
    private static final String UNITS = "units";
    private static final String METRIC = "bar, cm3";
    private static final int SMALLEST_WIDTH = 720;
    private static final int SMALLEST_HEIGHT = 480;

    private final JFrame frame;
    private final DeskState state;
    private final Runnable whenClosed;
    private final Workspace workspace = new Workspace();
    private final WelcomePane welcome;
    private final StatusLine status;
    private final List<DeskView> views = new ArrayList<>();
    private final JTabbedPane tabs;
    private final List<String> refused = new ArrayList<>();
    private Theme theme;
    private BringIn bringingIn;
    private int before;
    private boolean cautionsRead;

    DeskWindow(DeskState state, Runnable whenClosed) {
        this.state = state;
        this.whenClosed = whenClosed;
        theme = state.theme();
        // First of all: a component takes the look that is installed when it is made.
        theme.install();
        frame = new JFrame("Holdtrace");
        welcome = new WelcomePane(this::chooseFiles, this::goOn);
        status = new StatusLine(this::cancel, this::showRefused);
        tabs = new JTabbedPane();
        before = state.open().size();
        views.add(new AnalystView(workspace, welcome));
        views.add(new CompareView(workspace));
        workspace.addListener(this::remember);
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

    private void goOn() {
        bringIn(state.open());
    }

    /** Brings in recordings and folders of them, one call after the other. */
    void bringIn(List<Path> paths) {
        if (bringingIn != null) {
            status.idle("Something is still being brought in: wait for it, or stop it first");
            return;
        }
        if (paths.isEmpty()) {
            return;
        }
        state.remember(paths);
        refused.clear();
        status.refused(0);
        bringingIn = new BringIn(paths, new Coming());
        bringingIn.execute();
    }

    private void cancel() {
        if (bringingIn != null) {
            bringingIn.cancel(true);
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
        WordsDialog.show(frame, theme, "Refused", String.join("\n\n", refused));
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

    /** Closes the window and lets the program end. */
    void close() {
        cancel();
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
        private int came;

        @Override
        public void reading(String name, int number, int count) {
            status.working("Reading " + name + " (" + number + " of " + count + ")", number, count);
        }

        @Override
        public void ready(OpenRecording recording) {
            came++;
            workspace.put(recording);
        }

        @Override
        public void refused(Path path, Throwable reason, String sentence) {
            refused.add(sentence);
            status.refused(refused.size());
        }

        @Override
        public void finished(boolean cancelled) {
            bringingIn = null;
            status.idle((cancelled ? "Stopped; " : "") + (came == 1 ? "1 recording" : came + " recordings")
                    + " brought in");
            frame.setJMenuBar(DeskMenu.of(DeskWindow.this));
            frame.getRootPane().revalidate();
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
