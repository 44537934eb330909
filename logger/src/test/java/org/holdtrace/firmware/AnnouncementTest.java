package org.holdtrace.firmware;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import javax.xml.parsers.DocumentBuilderFactory;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.w3c.dom.Document;

/** The words are those of avahi.service(5); limits of names and texts are of RFC 6763, sections 4.1.1 and 6.1. */
class AnnouncementTest {
    @TempDir
    Path folder;

    @Test
    void aLoggerIsDescribedInTheWordsOfTheDaemonThatAnswersForIt() {
        assertEquals("""
                <?xml version="1.0" standalone="no"?>
                <!DOCTYPE service-group SYSTEM "avahi-service.dtd">
                <service-group>
                  <name replace-wildcards="no">shop logger 2</name>
                  <service>
                    <type>_holdtrace._tcp</type>
                    <port>28650</port>
                    <txt-record>name=shop logger 2</txt-record>
                    <txt-record>version=1</txt-record>
                  </service>
                </service-group>
                """, Announcement.text("shop logger 2", 28_650));
    }

    @Test
    void anyNameGivesXmlThatAnybodyCanReadAndTextsOfTheLengthAllowed() throws Exception {
        for (String name : new String[] {"a < b & \"c\" > 'd'", "tab\tand\u0001worse", "ä€😀".repeat(80), ""}) {
            DocumentBuilderFactory factory = DocumentBuilderFactory.newInstance();
            factory.setFeature("http://apache.org/xml/features/nonvalidating/load-external-dtd", false);
            Document read = factory.newDocumentBuilder()
                    .parse(new ByteArrayInputStream(Announcement.text(name, 1).getBytes(StandardCharsets.UTF_8)));
            String service = text(read, "name");
            String txt = text(read, "txt-record");
            assertTrue(service.getBytes(StandardCharsets.UTF_8).length <= 63, service);
            assertTrue(txt.getBytes(StandardCharsets.UTF_8).length <= 255, txt);
            assertTrue(name.startsWith("tab") || name.startsWith(service), service);
            assertTrue(txt.startsWith("name=" + service), txt);
        }
    }

    private static String text(Document read, String element) {
        return read.getElementsByTagName(element).item(0).getTextContent();
    }

    @Test
    void itIsWrittenIntoTheRunTimeFolderAndTakenAwayAgain() throws IOException {
        Announcement here = Announcement.of(folder + ":/elsewhere").orElseThrow();
        here.clear();
        here.write("one", 1);
        here.write("two", 2);
        assertEquals(Announcement.text("two", 2), Files.readString(folder.resolve("avahi.service")));
        here.clear();
        assertFalse(Files.exists(folder.resolve("avahi.service")));
        assertEquals(Optional.empty(), Announcement.of(null));
        assertEquals(Optional.empty(), Announcement.of(""));
    }
}
