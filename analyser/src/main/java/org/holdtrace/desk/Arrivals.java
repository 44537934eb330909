package org.holdtrace.desk;

import java.awt.datatransfer.DataFlavor;
import java.awt.datatransfer.UnsupportedFlavorException;
import java.io.File;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.BooleanSupplier;
import java.util.function.Supplier;
import javax.swing.JFileChooser;
import javax.swing.JFrame;
import javax.swing.JOptionPane;
import javax.swing.TransferHandler;
import org.holdtrace.desk.describe.ColumnsDialog;
import org.holdtrace.desk.logger.FetchWork;
import org.holdtrace.desk.logger.LoggerForm;
import org.holdtrace.desk.logger.LoggerMemory;
import org.holdtrace.desk.look.Theme;
import org.holdtrace.desk.work.Background;
import org.holdtrace.desk.work.BringIn;
import org.holdtrace.desk.work.Changes;
import org.holdtrace.desk.work.Described;
import org.holdtrace.desk.work.DeskState;
import org.holdtrace.desk.work.Drafts;
import org.holdtrace.desk.work.OpenRecording;
import org.holdtrace.library.Failures;
import org.holdtrace.link.LinkKey;
import org.holdtrace.remote.LoggerAddress;
import org.holdtrace.session.CsvHead;
import org.holdtrace.session.CsvPlan;
import org.holdtrace.session.SetupReader;
import org.holdtrace.session.SetupSheet;

/** The way recordings come onto the desk: chosen, dropped, or fetched from a logger. On the event thread. */
final class Arrivals {
    private final JFrame frame;
    private final DeskState state;
    private final StatusLine status;
    private final Changes changes;
    private final Drafts drafts;
    private final Supplier<Theme> theme;
    private final Supplier<Optional<OpenRecording>> chosen;
    private final BooleanSupplier refusesNow;
    private final Runnable whenCome;
    private BringIn bringingIn;
    private FetchWork fetching;

    /**
     * @param frame the window dialogs stand over
     * @param state what the desk remembers
     * @param status where it is said how far things are and what was refused
     * @param changes takes what comes
     * @param drafts of recordings that stand where nothing can be written
     * @param theme the look of dialogs
     * @param chosen the recording that is looked at
     * @param refusesNow whether the desk does something else at the moment, which it then says
     * @param whenCome called when all of one call have come
     */
    Arrivals(
            JFrame frame,
            DeskState state,
            StatusLine status,
            Changes changes,
            Drafts drafts,
            Supplier<Theme> theme,
            Supplier<Optional<OpenRecording>> chosen,
            BooleanSupplier refusesNow,
            Runnable whenCome) {
        this.frame = frame;
        this.state = state;
        this.status = status;
        this.changes = changes;
        this.drafts = drafts;
        this.theme = theme;
        this.chosen = chosen;
        this.refusesNow = refusesNow;
        this.whenCome = whenCome;
    }

    /** Whether something is on its way. */
    boolean isBusy() {
        return bringingIn != null || fetching != null;
    }

    /** Stops what is on its way; what has come stays. */
    void cancel() {
        if (bringingIn != null) {
            bringingIn.cancel(true);
        }
        if (fetching != null) {
            fetching.cancel(true);
        }
    }

    /** Takes what is dropped on a component. */
    TransferHandler dropped() {
        return new Dropped();
    }

    /** Lets somebody choose files and folders, and brings them in. */
    void chooseFiles() {
        JFileChooser chooser = Choosers.open(state, "choose recordings", "Bring in recordings");
        chooser.setFileSelectionMode(JFileChooser.FILES_AND_DIRECTORIES);
        chooser.setMultiSelectionEnabled(true);
        if (chooser.showDialog(frame, "Bring in") == JFileChooser.APPROVE_OPTION) {
            state.put("folder", chooser.getCurrentDirectory().getPath());
            bringIn(paths(List.of(chooser.getSelectedFiles())));
        }
    }

    /** Lets somebody choose a setup that the recording that is looked at is described by from now on. */
    void chooseSetup() {
        Optional<OpenRecording> recording = chosen.get();
        if (recording.isEmpty()) {
            return;
        }
        JFileChooser chooser = Choosers.open(state, "choose setup", "A setup (.setup.json)");
        if (chooser.showDialog(frame, "Describe it so") == JFileChooser.APPROVE_OPTION) {
            describe(recording.get(), chooser.getSelectedFile().toPath());
        }
    }

    private void describe(OpenRecording recording, Path file) {
        Background.run(
                () -> {
                    byte[] utf8 = Files.readAllBytes(file);
                    SetupReader.parse(utf8, file.toString());
                    return SetupSheet.parse(utf8, file.toString());
                },
                sheet -> changes.change(
                        recording,
                        "setup from " + file.getFileName(),
                        before -> new Described(sheet, before.notes().withNothingUnfinished())),
                why -> status.refuse(Failures.sentence(file.toString(), why)));
    }

    /** Asks for a logger and a folder, copies its sessions there and brings them in. */
    void fetch() {
        if (refusesNow.getAsBoolean()) {
            return;
        }
        LoggerForm form = new LoggerForm(new LoggerMemory(state));
        while (form.ask(frame)) {
            try {
                LoggerAddress address = form.address();
                Optional<LinkKey> key = form.key();
                Optional<Path> folder = chooseFolder();
                if (folder.isPresent()) {
                    form.remember();
                    status.nothingRefused();
                    status.working("Reaching " + form.where(), 0, 1);
                    fetching = new FetchWork(() -> address.open(Desk.PROGRAM, key), folder.get(), new Fetched());
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

    private Optional<Path> chooseFolder() {
        JFileChooser chooser = Choosers.open(state, "choose folder", "Copy the sessions into");
        chooser.setFileSelectionMode(JFileChooser.DIRECTORIES_ONLY);
        if (chooser.showDialog(frame, "Copy here") != JFileChooser.APPROVE_OPTION) {
            return Optional.empty();
        }
        state.put("folder", chooser.getSelectedFile().getPath());
        return Optional.of(chooser.getSelectedFile().toPath());
    }

    /** Brings in recordings and folders of them, one call after the other. */
    void bringIn(List<Path> paths) {
        if (paths.isEmpty() || refusesNow.getAsBoolean()) {
            return;
        }
        state.remember(paths.stream().filter(Files::exists).toList());
        status.nothingRefused();
        begin(paths);
    }

    private void begin(List<Path> paths) {
        begin(paths, Map.of());
    }

    private void begin(List<Path> paths, Map<Path, CsvPlan> plans) {
        bringingIn = new BringIn(paths, plans, changes.asked(), drafts, new Coming());
        bringingIn.execute();
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
            status.reading(name, number, count);
        }

        @Override
        public void ready(OpenRecording recording) {
            came++;
            changes.opened(recording);
        }

        @Override
        public void refused(Path path, Throwable reason, String sentence) {
            status.refuse(sentence);
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
                Path one = paths.keySet().iterator().next();
                status.idle(one.getFileName() + (paths.size() > 1 ? " and " + (paths.size() - 1) + " more" : "")
                        + ": what are the columns?");
                Optional<CsvPlan> plan =
                        ColumnsDialog.ask(frame, theme.get(), heads.get(names), List.copyOf(paths.keySet()));
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
            whenCome.run();
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
            status.refuse(sentence);
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
                    paths.add(((File) each).toPath());
                }
                if (paths.isEmpty()) {
                    status.say("What was dropped holds no file");
                }
                // Also what is not there, as a link that leads nowhere: it is refused with its reason.
                bringIn(paths);
                return true;
            } catch (UnsupportedFlavorException | IOException e) {
                status.idle("What was dropped could not be taken: " + e.getMessage());
                return false;
            }
        }
    }
}
