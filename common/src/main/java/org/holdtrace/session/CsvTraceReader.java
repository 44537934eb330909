package org.holdtrace.session;

import de.siegmar.fastcsv.reader.CommentStrategy;
import de.siegmar.fastcsv.reader.CsvParseException;
import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.CsvRecord;
import java.io.IOException;
import java.io.InputStream;
import java.io.Reader;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;
import org.holdtrace.trace.Trace;

/**
 * Reads a trace from CSV. The header line names the columns in any order, units in square brackets: {@code time [s]},
 * {@code pressure [bar]} and optionally {@code oil temperature [degC]}, {@code ambient temperature [degC]}. Pressure also
 * in psi, kPa, MPa, Pa; time also in ms, min, h or, as {@code time [UTC]}, ISO 8601 instants. Separated by semicolon,
 * comma or tab, which the header tells; a decimal comma is understood beside semicolon and tab, but not commas and points
 * in one file. Lines that start with # are comments. UTF-8, or UTF-16 where a byte order mark says so;
 * a header that is no UTF-8 is read as Latin-1, so that °C is understood.
 *
 * <p>Nothing is guessed: a row that cannot be read is an error that names the line. Two exceptions are no guesses: a
 * column of another name is kept out, and an empty cell in a temperature column is a sample without a temperature. Times
 * stay as they stand in the file; instants count from the first one.
 */
public final class CsvTraceReader {
    private static final int HEAD_ROWS = 5;

    private CsvTraceReader() {}

    /**
     * A trace and what was left out of it.
     *
     * @param trace the samples
     * @param ignoredColumns names of columns that no trace has, kept out
     */
    public record Reading(Trace trace, List<String> ignoredColumns) {
        public Reading {
            ignoredColumns = List.copyOf(ignoredColumns);
        }
    }

    /**
     * Reads the trace in {@code file}.
     *
     * @throws InputException where it is no trace or a row cannot be read; the message names the line
     * @throws IOException where the file cannot be read at all
     */
    public static Trace read(Path file) throws IOException {
        return readAll(file).trace();
    }

    /** As {@link #read(Path)}, and says which columns were kept out. */
    public static Reading readAll(Path file) throws IOException {
        try (InputStream in = Files.newInputStream(file)) {
            return read(in, file.toString());
        }
    }

    /** As {@link #readAll(Path)}, where a person says what the columns are. */
    public static Reading readAll(Path file, CsvPlan plan) throws IOException {
        try (InputStream in = Files.newInputStream(file)) {
            return read(in, file.toString(), plan);
        }
    }

    /**
     * Looks at the top of {@code file}, whatever its columns are.
     *
     * @throws IOException where it cannot be read; an {@link InputException} where it is no CSV or empty
     */
    public static CsvHead head(Path file) throws IOException {
        List<List<String>> lines = new ArrayList<>();
        try (InputStream in = Files.newInputStream(file)) {
            CsvLook look = CsvLook.at(in);
            try (Reader text = look.whole(in);
                    CsvReader<CsvRecord> csv = CsvReader.builder()
                            .fieldSeparator(look.separator())
                            .commentStrategy(CommentStrategy.SKIP)
                            .ofCsvRecord(text)) {
                Iterator<CsvRecord> records = csv.iterator();
                while (lines.size() <= HEAD_ROWS && records.hasNext()) {
                    List<String> cells = new ArrayList<>();
                    for (String cell : records.next().getFields()) {
                        cells.add(CsvRows.printable(cell).strip());
                    }
                    lines.add(cells);
                }
            }
        } catch (CsvParseException e) {
            throw new InputException(file.toString(), "", "no CSV (" + e.getMessage() + ")", "rows of numbers");
        } catch (UncheckedIOException e) {
            throw e.getCause();
        }
        if (lines.isEmpty()) {
            throw new InputException(file.toString(), "", "nothing in the file", "rows of numbers");
        }
        List<String> names = lines.get(0);
        boolean tells = true;
        try {
            CsvColumns.of(names, file.toString(), 1);
        } catch (InputException e) {
            tells = false;
        }
        return new CsvHead(names, lines.subList(1, lines.size()), tells);
    }

    /** Reads a trace from {@code in}; {@code name} stands for the file in messages. */
    static Reading read(InputStream in, String name) throws IOException {
        return read(in, name, null);
    }

    private static Reading read(InputStream in, String name, CsvPlan plan) throws IOException {
        CsvLook look = CsvLook.at(in);
        char separator = look.separator();
        CsvRows rows = new CsvRows(name, separator != ',', plan);
        try (Reader text = look.whole(in);
                CsvReader<Trace> csv = CsvReader.builder()
                        .fieldSeparator(separator)
                        .commentStrategy(CommentStrategy.SKIP)
                        .build(rows, text)) {
            Iterator<Trace> records = csv.iterator();
            while (records.hasNext()) {
                records.next(); // never comes here: rows keeps what it is handed and hands no record back
            }
        } catch (CsvParseException e) {
            if (e.getCause() instanceof CsvRows.Refused refused) {
                throw (InputException) refused.getCause();
            }
            String reason = e.getCause() == null ? e.getMessage() : e.getCause().getMessage();
            throw new InputException(name, "", "no CSV (" + reason + ")", "rows of numbers");
        } catch (UncheckedIOException e) {
            throw e.getCause();
        }
        return rows.reading();
    }
}
