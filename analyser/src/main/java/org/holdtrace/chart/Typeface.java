package org.holdtrace.chart;

import java.awt.Font;
import java.awt.FontFormatException;
import java.io.IOException;
import java.io.InputStream;

/**
 * The typeface of all pictures and reports, which comes with the program: a picture is measured, and so laid out, the same
 * on every machine, and a report embeds it.
 */
public final class Typeface {
    /** The family's name. */
    public static final String FAMILY = "DejaVu Sans";
    /** The plain face beside this class. */
    public static final String PLAIN = "DejaVuSans.ttf";
    /** The bold face beside this class. */
    public static final String BOLD = "DejaVuSans-Bold.ttf";
    /** For a browser: the family, then one of the same widths, then whatever there is. */
    static final String FOR_BROWSERS = FAMILY + ", Verdana, sans-serif";

    private static final Font PLAIN_FACE = read(PLAIN, Font.PLAIN);
    private static final Font BOLD_FACE = read(BOLD, Font.BOLD);

    private Typeface() {}

    /** A font of this typeface, plain or bold. */
    public static Font font(int style, float size) {
        return (style == Font.BOLD ? BOLD_FACE : PLAIN_FACE).deriveFont(style, size);
    }

    /** One of the files, to be closed by the caller. */
    public static InputStream open(String file) {
        return Typeface.class.getResourceAsStream(file);
    }

    /** Java copies a font into the folder for temporary files; where it cannot, its own typeface has to do. */
    private static Font read(String file, int style) {
        try (InputStream in = open(file)) {
            return Font.createFont(Font.TRUETYPE_FONT, in);
        } catch (IOException | FontFormatException e) {
            return new Font(Font.SANS_SERIF, style, 1);
        }
    }
}
