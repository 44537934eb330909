package org.holdtrace.desk.logger;

import java.awt.Component;
import java.awt.Dimension;
import java.awt.Window;
import java.awt.event.HierarchyEvent;
import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import javax.swing.BorderFactory;
import javax.swing.BoxLayout;
import javax.swing.DefaultListCellRenderer;
import javax.swing.JButton;
import javax.swing.JComboBox;
import javax.swing.JComponent;
import javax.swing.JLabel;
import javax.swing.JList;
import javax.swing.JOptionPane;
import javax.swing.JPanel;
import javax.swing.JScrollPane;
import javax.swing.JTextField;
import javax.swing.SwingUtilities;
import javax.swing.Timer;
import javax.swing.UIManager;
import org.holdtrace.desk.look.Prose;
import org.holdtrace.desk.work.Background;
import org.holdtrace.link.LinkKey;
import org.holdtrace.link.LinkLimits;
import org.holdtrace.remote.LoggerAddress;
import org.holdtrace.remote.NetworkLoggers;

/**
 * Asks where a logger is; the serial ports of this computer, hosts used before and, once somebody asks for it, loggers
 * that announce themselves on the network can be chosen. On the event thread.
 */
public final class LoggerForm {
    private static final int COLUMNS = 22;

    /** A logger that hears the question answers well within this; looking goes on all the same. */
    private static final int USUALLY_ANSWERED_MS = 5000;

    private final JComboBox<String> where = new JComboBox<>();
    private final Prose found = new Prose("ports found", UIManager.getFont("Label.font"));
    private final JButton lookOnNetwork = new JButton("Look on the network");
    private final Prose announced = new Prose("loggers found", UIManager.getFont("Label.font"));
    private final Map<String, String> descriptions = new LinkedHashMap<>();
    private final NetworkSearch search = new NetworkSearch(this::heard, this::notSearched);
    private final Timer answered = new Timer(USUALLY_ANSWERED_MS, event -> nothingSoFar());
    private final LoggerMemory memory;
    private final JTextField baud = new JTextField(Integer.toString(LinkLimits.USUAL_BAUD), COLUMNS);
    private final JTextField keyFile = new JTextField(COLUMNS);
    private final JPanel panel = new JPanel();

    /** @param memory addresses used before, the latest first */
    public LoggerForm(LoggerMemory memory) {
        this.memory = memory;
        List<String> before = memory.addresses();
        panel.setName("which logger");
        panel.setLayout(new BoxLayout(panel, BoxLayout.Y_AXIS));
        where.setEditable(true);
        where.setRenderer(new Described());
        before.forEach(where::addItem);
        where.setSelectedItem(before.isEmpty() ? "" : before.get(0));
        row("Serial port or host:", where, "where");
        if (where.getEditor().getEditorComponent() instanceof JTextField field) {
            field.putClientProperty("JTextField.placeholderText", "/dev/ttyACM0, COM3, logger.local");
        }
        found.setColumns(COLUMNS);
        announced.setColumns(COLUMNS);
        say(found, "looking for serial ports …");
        say(announced, "");
        lookOnNetwork.setName("look on the network");
        lookOnNetwork.addActionListener(event -> {
            lookOnNetwork.setEnabled(false);
            say(announced, "looking for loggers on the network …");
            search.begin();
            answered.restart();
        });
        answered.setRepeats(false);
        for (JComponent each : List.of(found, lookOnNetwork, announced)) {
            each.setAlignmentX(Component.LEFT_ALIGNMENT);
            panel.add(each);
        }
        row("Speed of a serial port that is no USB cable:", baud, "baud");
        keyFile.setText(memory.keyFile());
        row("Key file, where it is reached over the network:", keyFile, "key");
        panel.addHierarchyListener(event -> {
            if ((event.getChangeFlags() & HierarchyEvent.SHOWING_CHANGED) != 0 && panel.isShowing()) {
                // After the option pane, which gives the keyboard to its buttons.
                SwingUtilities.invokeLater(where::requestFocusInWindow);
            }
        });
        look(before);
    }

    /** What a logger on the network said of itself. */
    void heard(NetworkLoggers.Announced logger) {
        String words = String.join(
                ", link version ",
                Stream.of(logger.name(), logger.version())
                        .filter(each -> !each.isEmpty())
                        .toList());
        boolean isNew = descriptions.put(logger.address(), words) == null;
        if (isNew && indexOf(logger.address()) < 0) {
            Object typed = where.getEditor().getItem();
            where.addItem(logger.address());
            where.getEditor().setItem(typed);
        }
        if (where().isEmpty()) {
            where.setSelectedItem(logger.address());
        }
        List<String> all = new ArrayList<>();
        descriptions.forEach((address, each) -> all.add(each.isEmpty() ? address : address + " (" + each + ")"));
        say(announced, "On the network: " + String.join(", ", all));
    }

    /** Whoever waits is told so where nothing has come, since nothing may come at all. */
    void nothingSoFar() {
        if (descriptions.isEmpty()) {
            say(
                    announced,
                    "None has announced itself so far; it is still looked for. Some networks keep announcements back:"
                            + " an address typed above reaches a logger all the same.");
        }
    }

    /** What is said of loggers on the network. */
    String announced() {
        return announced.getText();
    }

    /** Says {@code words}, in as many lines as they take, for which the dialog makes room. */
    private void say(Prose place, String words) {
        place.say(words, UIManager.getColor("Label.foreground"));
        Window dialog = SwingUtilities.getWindowAncestor(panel);
        if (dialog != null) {
            dialog.pack();
        }
    }

    private void notSearched(String why) {
        answered.stop();
        say(announced, why);
        lookOnNetwork.setEnabled(true);
    }

    private int indexOf(String address) {
        for (int i = 0; i < where.getItemCount(); i++) {
            if (address.equals(where.getItemAt(i))) {
                return i;
            }
        }
        return -1;
    }

    private void look(List<String> before) {
        Background.run(
                LoggerAddress::serialPorts,
                ports -> show(ports, before),
                why -> say(found, "serial ports cannot be listed here: " + why.getMessage()));
    }

    private void show(List<LoggerAddress.Found> ports, List<String> before) {
        List<String> words = new ArrayList<>();
        Object typed = where.getEditor().getItem();
        for (LoggerAddress.Found each : ports) {
            words.add(each.port() + (each.description().isEmpty() ? "" : " (" + each.description() + ")"));
            if (!before.contains(each.port())) {
                where.addItem(each.port());
            }
        }
        boolean untouched = typed == null || typed.toString().isBlank();
        where.getEditor().setItem(untouched && !ports.isEmpty() ? ports.get(0).port() : typed);
        say(
                found,
                words.isEmpty()
                        ? "No serial port was found on this computer."
                        : "Serial ports here: " + String.join(", ", words));
    }

    private void row(String words, JComponent field, String name) {
        JLabel label = new JLabel(words);
        label.setLabelFor(field);
        label.setAlignmentX(Component.LEFT_ALIGNMENT);
        field.setAlignmentX(Component.LEFT_ALIGNMENT);
        field.setName(name);
        field.getAccessibleContext().setAccessibleName(words);
        panel.add(label);
        panel.add(field);
    }

    /** Shows the form, until it is confirmed or given up (false). Searching the network ends with it. */
    public boolean ask(Component over) {
        boolean confirmed = JOptionPane.showConfirmDialog(
                        over,
                        new NoHigherThanTheScreen(panel),
                        "Which logger?",
                        JOptionPane.OK_CANCEL_OPTION,
                        JOptionPane.PLAIN_MESSAGE)
                == JOptionPane.OK_OPTION;
        search.end();
        answered.stop();
        lookOnNetwork.setEnabled(true);
        return confirmed;
    }

    /** Remembers what was typed for the next time; of the key, where its file is. */
    public void remember() {
        memory.remember(where(), keyFile.getText().strip());
    }

    /** As it was typed. */
    public String where() {
        Object typed = where.getEditor().getItem();
        return typed == null ? "" : typed.toString().strip();
    }

    /**
     * Where it is.
     *
     * @throws IllegalArgumentException where what was typed is no address or no speed
     */
    public LoggerAddress address() {
        int speed;
        try {
            speed = Integer.parseInt(baud.getText().strip());
        } catch (NumberFormatException e) {
            speed = -1;
        }
        if (!LinkLimits.isBaud(speed)) {
            throw new IllegalArgumentException("the speed is \"" + baud.getText() + "\"; expected " + LinkLimits.BAUDS);
        }
        return LoggerAddress.parse(where(), speed);
    }

    /** Its key, where one was given. */
    public Optional<LinkKey> key() throws IOException {
        String file = keyFile.getText().strip();
        return file.isEmpty() ? Optional.empty() : Optional.of(LinkKey.read(Path.of(file)));
    }

    /** Shows beside an address what the logger there calls itself. */
    private final class Described extends DefaultListCellRenderer {
        private static final long serialVersionUID = 1L;

        @Override
        public Component getListCellRendererComponent(
                JList<?> list, Object value, int index, boolean selected, boolean focused) {
            String words = descriptions.getOrDefault(String.valueOf(value), "");
            return super.getListCellRendererComponent(
                    list, words.isEmpty() ? value : value + "  (" + words + ")", index, selected, focused);
        }
    }

    /** The form, which scrolls where large type makes it higher than a small screen has room for. */
    private static final class NoHigherThanTheScreen extends JScrollPane {
        private static final long serialVersionUID = 1L;
        /** The rest is for the title, the buttons and the bars of the system. */
        private static final double LARGEST_SHARE = 0.66;

        NoHigherThanTheScreen(JComponent form) {
            super(form, VERTICAL_SCROLLBAR_AS_NEEDED, HORIZONTAL_SCROLLBAR_NEVER);
            setBorder(BorderFactory.createEmptyBorder());
        }

        @Override
        public Dimension getPreferredSize() {
            Dimension all = getViewport().getView().getPreferredSize();
            int most = (int) (LARGEST_SHARE * getToolkit().getScreenSize().height);
            return all.height <= most
                    ? all
                    : new Dimension(all.width + getVerticalScrollBar().getPreferredSize().width, most);
        }
    }
}
