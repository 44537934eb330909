package org.holdtrace.session;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.Reader;
import java.io.SequenceInputStream;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/** A first look at a CSV file: its encoding and, from its header line, what separates its cells. */
final class CsvLook {
    /** Enough for the comments of most files; doubled where they are longer. */
    private static final int FIRST_LOOK = 1 << 12;

    private static final int LONGEST_LOOK = 1 << 24;
    private static final char[] SEPARATORS = {';', '\t', ','};

    private final byte[] bytes;
    private final int markLength;
    private final Charset charset;
    private final String header;

    private CsvLook(byte[] bytes) {
        this.bytes = bytes;
        if (starts(bytes, 0xFE, 0xFF)) {
            markLength = 2;
            charset = StandardCharsets.UTF_16BE;
        } else if (starts(bytes, 0xFF, 0xFE)) {
            markLength = 2;
            charset = StandardCharsets.UTF_16LE;
        } else {
            markLength = starts(bytes, 0xEF, 0xBB, 0xBF) ? 3 : 0;
            // The only sign beyond ASCII that means anything here is the one of °C, and it is the same byte in all
            // Western encodings of one byte a character.
            charset = header(text(StandardCharsets.UTF_8)).indexOf('\uFFFD') < 0
                    ? StandardCharsets.UTF_8
                    : StandardCharsets.ISO_8859_1;
        }
        header = header(text(charset));
    }

    private String text(Charset encoding) {
        return new String(bytes, markLength, bytes.length - markLength, encoding);
    }

    /** Looks at as much of {@code in} as its header line needs. */
    static CsvLook at(InputStream in) throws IOException {
        CsvLook look = new CsvLook(in.readNBytes(FIRST_LOOK));
        while (look.header.isEmpty() && look.bytes.length < LONGEST_LOOK) {
            byte[] more = in.readNBytes(Math.max(FIRST_LOOK, look.bytes.length));
            if (more.length == 0) {
                break;
            }
            byte[] longer = Arrays.copyOf(look.bytes, look.bytes.length + more.length);
            System.arraycopy(more, 0, longer, look.bytes.length, more.length);
            look = new CsvLook(longer);
        }
        return look;
    }

    /** The whole text, what was looked at and the rest of {@code in}. */
    Reader whole(InputStream in) {
        InputStream start = new ByteArrayInputStream(bytes, markLength, bytes.length - markLength);
        return new InputStreamReader(new SequenceInputStream(start, in), charset);
    }

    /** The separator that makes the header that of a trace; failing that, the one that parts it most. */
    char separator() {
        char most = ',';
        int mostCells = 1;
        for (char separator : SEPARATORS) {
            List<String> cells = cells(separator);
            if (CsvColumns.fits(cells)) {
                return separator;
            }
            if (cells.size() > mostCells) {
                most = separator;
                mostCells = cells.size();
            }
        }
        return most;
    }

    private static boolean starts(byte[] bytes, int... first) {
        for (int i = 0; i < first.length; i++) {
            if (i >= bytes.length || (bytes[i] & 0xFF) != first[i]) {
                return false;
            }
        }
        return true;
    }

    /** The first line that is neither blank nor a comment, empty where none ends within {@code text}. */
    private static String header(String text) {
        int start = 0;
        for (int i = 0; i < text.length(); i++) {
            if (text.charAt(i) == '\n' || text.charAt(i) == '\r') {
                String line = text.substring(start, i);
                if (!line.isBlank() && line.charAt(0) != '#') {
                    return line;
                }
                start = i + 1;
            }
        }
        return "";
    }

    private List<String> cells(char separator) {
        List<String> cells = new ArrayList<>();
        StringBuilder cell = new StringBuilder();
        boolean quoted = false;
        for (int i = 0; i < header.length(); i++) {
            char c = header.charAt(i);
            if (c == '"') {
                quoted = !quoted;
            } else if (c == separator && !quoted) {
                cells.add(cell.toString());
                cell.setLength(0);
            } else {
                cell.append(c);
            }
        }
        cells.add(cell.toString());
        return cells;
    }
}
