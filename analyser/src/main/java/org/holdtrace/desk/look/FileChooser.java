package org.holdtrace.desk.look;

import java.awt.Dimension;
import javax.swing.JFileChooser;

/** A file chooser no larger than the screen, whatever the size of type. */
public final class FileChooser extends JFileChooser {
    private static final long serialVersionUID = 1L;
    private static final double SHARE = 0.88;

    /** @param folder where one looks first; empty for the person's own */
    public FileChooser(String folder) {
        super(folder);
    }

    @Override
    public Dimension getPreferredSize() {
        Dimension wanted = super.getPreferredSize();
        Dimension screen = getToolkit().getScreenSize();
        return new Dimension((int) Math.min(wanted.width, SHARE * screen.width), (int)
                Math.min(wanted.height, SHARE * screen.height));
    }
}
