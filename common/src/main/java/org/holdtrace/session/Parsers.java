package org.holdtrace.session;

import com.fasterxml.jackson.core.ErrorReportConfiguration;
import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.StreamReadConstraints;
import com.fasterxml.jackson.core.StreamWriteConstraints;
import com.fasterxml.jackson.core.io.ContentReference;
import com.fasterxml.jackson.core.io.IOContext;
import com.fasterxml.jackson.core.json.ReaderBasedJsonParser;
import com.fasterxml.jackson.core.sym.ByteQuadsCanonicalizer;
import com.fasterxml.jackson.core.sym.CharsToNameCanonicalizer;
import com.fasterxml.jackson.core.util.BufferRecycler;
import com.fasterxml.jackson.dataformat.cbor.CBORParser;

/**
 * Makes the two parsers a plain analysis needs, set as their factories set them. The factories themselves are passed by:
 * they know every parser and generator of the library, and having the Java machine load and check all of those would cost
 * a short run a tenth of its time (docs/decisions/0004-start-up-time.md).
 */
final class Parsers {
    private static final int FACTORY = JsonFactory.Feature.collectDefaults();
    private static final int PARSER = JsonParser.Feature.collectDefaults();
    private static final int CBOR_PARSER = CBORParser.Feature.collectDefaults();

    private Parsers() {}

    /** A parser of CBOR in memory. One reader makes many, one for each frame: what they share is in {@code names}. */
    static CBORParser cbor(ByteQuadsCanonicalizer names, byte[] bytes, int offset, int length) {
        return new CBORParser(
                context(),
                PARSER,
                CBOR_PARSER,
                null,
                names.makeChild(FACTORY),
                null,
                bytes,
                offset,
                offset + length,
                false);
    }

    /** Field names met, to be shared by parsers made one after another. */
    static ByteQuadsCanonicalizer names() {
        return ByteQuadsCanonicalizer.createRoot();
    }

    /** A parser of JSON in memory. */
    static JsonParser json(String text) {
        char[] characters = text.toCharArray();
        return new ReaderBasedJsonParser(
                context(),
                PARSER,
                null,
                null,
                CharsToNameCanonicalizer.createRoot(null).makeChild(),
                characters,
                0,
                characters.length,
                false);
    }

    /** Why something is no JSON or CBOR, without what the library says of its own settings. */
    static String why(JsonProcessingException e) {
        String message = e.getOriginalMessage().lines().findFirst().orElse("");
        int aside = message.indexOf(" (start marker at");
        if (aside < 0) {
            aside = message.indexOf(" (not recognized as one");
        }
        return aside < 0 ? message : message.substring(0, aside);
    }

    private static IOContext context() {
        return new IOContext(
                StreamReadConstraints.defaults(),
                StreamWriteConstraints.defaults(),
                ErrorReportConfiguration.defaults(),
                new BufferRecycler(),
                ContentReference.unknown(),
                false);
    }
}
