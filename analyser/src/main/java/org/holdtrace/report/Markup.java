package org.holdtrace.report;

import java.io.StringWriter;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import javax.xml.stream.XMLOutputFactory;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamWriter;

/** Writes well-formed XHTML; what is text is escaped. */
final class Markup {
    private static final Pattern BEFORE_UNIT = Pattern.compile("(?<=\\d) (?=cm³|in³|bar|psi|%|°|s\\b|min\\b|Hz)");
    private static final Pattern BROKEN_UNIT =
            Pattern.compile("(?:\\d[\\d.]*\u00a0)?\\[?(?:cm³|in³)/(?:min|bar|psi)\\]?");

    private final StringWriter text = new StringWriter();
    private final XMLStreamWriter xml;

    Markup() {
        try {
            xml = XMLOutputFactory.newDefaultFactory().createXMLStreamWriter(text);
        } catch (XMLStreamException e) {
            throw new IllegalStateException(e);
        }
    }

    /** One step of writing, which into memory cannot fail. */
    private interface Step {
        void run() throws XMLStreamException;
    }

    private Markup step(Step step) {
        try {
            step.run();
        } catch (XMLStreamException e) {
            throw new IllegalStateException(e);
        }
        return this;
    }

    /** Opens an element with attributes given as name, value, name, value, …. */
    Markup open(String element, String... attributes) {
        return step(() -> {
            xml.writeStartElement(element);
            for (int i = 0; i < attributes.length; i += 2) {
                xml.writeAttribute(attributes[i], attributes[i + 1]);
            }
        });
    }

    /** Closes the element opened last. A browser would take {@code <p/>} for an opening tag, so an end tag is written. */
    Markup close() {
        return step(() -> {
            xml.writeCharacters("");
            xml.writeEndElement();
            xml.writeCharacters("\n");
        });
    }

    /** Text, escaped. Numbers keep to their units, and units are not broken at their stroke. */
    Markup text(String words) {
        String shown = BEFORE_UNIT.matcher(words).replaceAll("\u00a0");
        Matcher unit = BROKEN_UNIT.matcher(shown);
        int from = 0;
        while (unit.find()) {
            String before = shown.substring(from, unit.start());
            String whole = unit.group();
            step(() -> xml.writeCharacters(before));
            step(() -> xml.writeStartElement("span"));
            step(() -> xml.writeAttribute("class", "unit"));
            step(() -> xml.writeCharacters(whole));
            step(xml::writeEndElement);
            from = unit.end();
        }
        String rest = shown.substring(from);
        return step(() -> xml.writeCharacters(rest));
    }

    /** An element with text in it. */
    Markup element(String element, String words, String... attributes) {
        return open(element, attributes).text(words).close();
    }

    /** A row of a table: the first cell names what follows. */
    Markup row(String name, String... cells) {
        open("tr").element("th", name, "scope", "row");
        for (String cell : cells) {
            element("td", cell);
        }
        return close();
    }

    /** A table's head, repeated on every page it runs over. */
    Markup head(String... names) {
        open("thead").open("tr");
        for (String name : names) {
            element("th", name, "scope", "col");
        }
        return close().close();
    }

    /** Markup that is well-formed already. */
    Markup raw(String markup) {
        step(() -> xml.writeCharacters(""));
        step(xml::flush);
        text.write(markup);
        return this;
    }

    /** What was written. */
    String written() {
        step(xml::flush);
        return text.toString();
    }
}
