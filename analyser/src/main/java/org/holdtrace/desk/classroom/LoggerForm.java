package org.holdtrace.desk.classroom;

import java.awt.Component;
import java.io.IOException;
import java.nio.file.Path;
import java.util.Optional;
import javax.swing.BoxLayout;
import javax.swing.JLabel;
import javax.swing.JOptionPane;
import javax.swing.JPanel;
import javax.swing.JTextField;
import org.holdtrace.link.LinkKey;
import org.holdtrace.link.LinkLimits;
import org.holdtrace.remote.LoggerAddress;

/** Asks where a logger is. On the event thread. */
final class LoggerForm {
    private static final int COLUMNS = 32;

    private final JTextField where = new JTextField(COLUMNS);
    private final JTextField baud = new JTextField(Integer.toString(LinkLimits.USUAL_BAUD), COLUMNS);
    private final JTextField keyFile = new JTextField(COLUMNS);
    private final JPanel panel = new JPanel();

    LoggerForm() {
        panel.setLayout(new BoxLayout(panel, BoxLayout.Y_AXIS));
        row("Serial port or host (/dev/ttyACM0, COM3, logger.local):", where, "where");
        row("Speed of a serial port that is no USB cable:", baud, "baud");
        row("Key file, where it is reached over the network:", keyFile, "key");
    }

    private void row(String words, JTextField field, String name) {
        JLabel label = new JLabel(words);
        label.setLabelFor(field);
        label.setAlignmentX(Component.LEFT_ALIGNMENT);
        field.setAlignmentX(Component.LEFT_ALIGNMENT);
        field.setName(name);
        panel.add(label);
        panel.add(field);
    }

    /** Shows the form; false where it was given up. */
    boolean ask(Component over) {
        return JOptionPane.showConfirmDialog(over, panel, "Which logger?", JOptionPane.OK_CANCEL_OPTION)
                == JOptionPane.OK_OPTION;
    }

    /** As it was typed. */
    String where() {
        return where.getText().strip();
    }

    /**
     * Where it is.
     *
     * @throws IllegalArgumentException where what was typed is no address or no speed
     */
    LoggerAddress address() {
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
    Optional<LinkKey> key() throws IOException {
        String file = keyFile.getText().strip();
        return file.isEmpty() ? Optional.empty() : Optional.of(LinkKey.read(Path.of(file)));
    }
}
