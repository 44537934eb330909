package org.holdtrace.desk.logger;

import java.awt.Component;
import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.ExecutionException;
import javax.swing.BoxLayout;
import javax.swing.JComboBox;
import javax.swing.JComponent;
import javax.swing.JLabel;
import javax.swing.JOptionPane;
import javax.swing.JPanel;
import javax.swing.JTextField;
import javax.swing.SwingWorker;
import org.holdtrace.link.LinkKey;
import org.holdtrace.link.LinkLimits;
import org.holdtrace.remote.LoggerAddress;

/** Asks where a logger is; the serial ports of this computer and hosts used before can be chosen. On the event thread. */
public final class LoggerForm {
    private static final int COLUMNS = 32;

    private final JComboBox<String> where = new JComboBox<>();
    private final JLabel found = new JLabel("looking for serial ports …");
    private final JTextField baud = new JTextField(Integer.toString(LinkLimits.USUAL_BAUD), COLUMNS);
    private final JTextField keyFile = new JTextField(COLUMNS);
    private final JPanel panel = new JPanel();

    /** @param before addresses used before, the latest first */
    public LoggerForm(List<String> before) {
        panel.setName("which logger");
        panel.setLayout(new BoxLayout(panel, BoxLayout.Y_AXIS));
        where.setEditable(true);
        before.forEach(where::addItem);
        where.setSelectedItem(before.isEmpty() ? "" : before.get(0));
        row("Serial port or host (/dev/ttyACM0, COM3, logger.local):", where, "where");
        found.setName("ports found");
        found.setAlignmentX(Component.LEFT_ALIGNMENT);
        panel.add(found);
        row("Speed of a serial port that is no USB cable:", baud, "baud");
        row("Key file, where it is reached over the network:", keyFile, "key");
        look(before);
    }

    private void look(List<String> before) {
        new SwingWorker<List<LoggerAddress.Found>, Void>() {
            @Override
            protected List<LoggerAddress.Found> doInBackground() {
                return LoggerAddress.serialPorts();
            }

            @Override
            protected void done() {
                try {
                    show(get(), before);
                } catch (InterruptedException e) {
                    Thread.currentThread().interrupt();
                } catch (ExecutionException e) {
                    found.setText("serial ports cannot be listed here: "
                            + e.getCause().getMessage());
                }
            }
        }.execute();
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
        found.setText(
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

    /** Shows the form, until it is confirmed or given up (false). */
    public boolean ask(Component over) {
        return JOptionPane.showConfirmDialog(over, panel, "Which logger?", JOptionPane.OK_CANCEL_OPTION)
                == JOptionPane.OK_OPTION;
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
}
