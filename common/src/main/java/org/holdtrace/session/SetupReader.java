package org.holdtrace.session;

import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.JsonToken;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

/**
 * Reads a setup ({@code NAME.setup.json}). Every problem of a file is reported at once, each with its line, its field,
 * what was found and what was expected. {@code null} stands for a field that is not known. Oil grades are checked for
 * their form only, see {@link OilGrade}.
 */
public final class SetupReader {
    private SetupReader() {}

    /**
     * Reads the setup in {@code file}, UTF-8 JSON.
     *
     * @throws InputException where the file is no setup; its message has one line for each problem
     * @throws IOException where the file cannot be read at all
     */
    public static TestSetup read(Path file) throws IOException {
        return parse(Files.readAllBytes(file), file.toString());
    }

    /** Reads the setup in {@code utf8}; {@code name} stands for the file in messages. */
    public static TestSetup parse(byte[] utf8, String name) throws InputException {
        List<InputException> problems = new ArrayList<>();
        SetupParser setup = new SetupParser(name, problems);
        // Decoded first: columns then count characters, and ± is one of them.
        try (JsonParser parser = Parsers.json(text(utf8))) {
            if (parser.nextToken() == JsonToken.START_OBJECT) {
                setup.object(parser);
                if (parser.nextToken() != null) {
                    problems.add(new InputException(
                            name,
                            SetupParser.place(parser.currentTokenLocation(), ""),
                            "more text behind the closing brace",
                            "one object and nothing more"));
                }
            } else {
                problems.add(new InputException(
                        name,
                        "",
                        parser.currentToken() == null ? "nothing in the file" : "no JSON object",
                        SetupParser.EXAMPLE));
            }
        } catch (JsonProcessingException e) {
            problems.add(notJson(e, name));
        } catch (IOException e) {
            // The bytes are in memory: what else goes wrong is their encoding.
            problems.add(new InputException(name, "", "text that is not UTF-8", "UTF-8; ± may be written +/-"));
        }
        if (!problems.isEmpty()) {
            throw InputException.all(problems);
        }
        return setup.setup();
    }

    /**
     * Reads the setup the parser stands at the start of and leaves it at its end; JSON or CBOR.
     *
     * @throws InputException where a field cannot be read; its message has one line for each problem
     */
    public static TestSetup read(JsonParser parser, String name) throws IOException {
        List<InputException> problems = new ArrayList<>();
        SetupParser setup = new SetupParser(name, problems);
        if (parser.currentToken() == JsonToken.START_OBJECT) {
            setup.object(parser);
        } else {
            parser.skipChildren();
            problems.add(new InputException(name, "", "something that is no map", SetupParser.EXAMPLE));
        }
        if (!problems.isEmpty()) {
            throw InputException.all(problems);
        }
        return setup.setup();
    }

    private static String text(byte[] utf8) throws CharacterCodingException {
        String text = StandardCharsets.UTF_8
                .newDecoder()
                .decode(ByteBuffer.wrap(utf8))
                .toString();
        return text.startsWith("\uFEFF") ? text.substring(1) : text;
    }

    private static InputException notJson(JsonProcessingException e, String name) {
        return new InputException(
                name,
                SetupParser.place(e.getLocation(), ""),
                "not valid JSON (" + Parsers.why(e) + ")",
                SetupParser.EXAMPLE);
    }
}
