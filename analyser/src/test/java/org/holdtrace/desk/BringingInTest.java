package org.holdtrace.desk;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.event.KeyEvent;
import java.io.IOException;
import java.net.InetAddress;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import java.util.Set;
import javax.swing.SwingUtilities;
import org.assertj.swing.fixture.DialogFixture;
import org.assertj.swing.fixture.FrameFixture;
import org.assertj.swing.fixture.JFileChooserFixture;
import org.assertj.swing.fixture.JOptionPaneFixture;
import org.holdtrace.library.InputFile;
import org.holdtrace.library.Recordings;
import org.holdtrace.remote.FolderLogger;
import org.holdtrace.serve.LinkServer;
import org.holdtrace.serve.TcpPort;
import org.junit.jupiter.api.Test;

/** The ways in, on the real window. */
class BringingInTest extends WindowTest {
    @Test
    void aTraceWhoseHeaderDoesNotTellIsAskedAboutAndTheAnswerIsKept() throws IOException {
        Path trace = demo.resolve("clamp-psi.csv");
        StringBuilder lines = new StringBuilder("elapsed (s),P1,remark\n");
        for (String line : Files.readAllLines(demo.resolve("08-thistle-clamp.csv"))) {
            String[] cells = line.split("[,;]", -1);
            if (!line.startsWith("#") && !line.startsWith("time")) {
                lines.append(cells[0])
                        .append(',')
                        .append(Double.parseDouble(cells[1]) * 14.503773773)
                        .append(",x\n");
            }
        }
        Files.writeString(trace, lines);
        FrameFixture desk = openDesk();
        choose(desk, trace);
        DialogFixture columns = desk.dialog("columns");
        columns.button("use columns").requireDisabled();
        columns.comboBox("column 1 is").selectItem("time");
        columns.comboBox("column 2 is").selectItem("pressure");
        columns.button("use columns").requireDisabled();
        columns.comboBox("column 2 in").selectItem("psi");
        Screens.keep(columns.target(), "desk-columns");
        assertEquals("s", columns.comboBox("column 1 in").selectedItem(), "it stands in the header");
        columns.button("use columns").click();
        until("it is there", () -> desk.label("status").text().equals("1 recording brought in"));
        assertTrue(
                desk.textBox("leak").text().startsWith("Leak: "),
                desk.textBox("leak").text());
        assertEquals(
                Recordings.read(new InputFile(demo.resolve("08-thistle-clamp.csv"), "bar"))
                        .trace()
                        .pressurePa(1200),
                Recordings.read(new InputFile(trace, "psi")).trace().pressurePa(1200),
                1e-3,
                "the commands read it as well");
        desk.close();
    }

    @Test
    void whatIsRefusedIsListedWithItsReasons() throws IOException {
        Files.writeString(demo.resolve("broken.csv"), "time [s],pressure [bar]\n1,2\n2,x\n");
        Files.writeString(demo.resolve("broken.hold"), "no session");
        FrameFixture desk = openDesk();
        choose(desk, demo);
        until("all are there", () -> desk.label("status").text().equals("10 recordings brought in"));
        assertEquals("2 were refused: why?", desk.button("refused").text());
        desk.button("refused").click();
        String reasons =
                desk.dialog("refused list").textBox("refused list text").text();
        assertTrue(
                reasons.contains("broken.csv, line 3: \"x\" in column \"pressure [bar]\"; expected a number"), reasons);
        assertTrue(reasons.contains("broken.hold"), reasons);
        desk.dialog("refused list").button("confirm refused list").click();
        desk.close();
    }

    @Test
    void theSessionsOfALoggerAreFetchedAndBroughtIn() throws IOException {
        Path there = Files.createDirectory(home.resolve("logger"));
        Path here = Files.createDirectory(home.resolve("fetched"));
        for (String name : new String[] {"02-bramble-bucket-port-a.hold", "03-bramble-bucket-port-b.hold"}) {
            Files.copy(
                    demo.resolve(name),
                    there.resolve("2026-03-01-" + name.substring(0, 4).replace("-", "0") + ".hold"));
        }
        try (LinkServer server = new LinkServer(new FolderLogger(there), "Holdtrace logger test", line -> {});
                TcpPort port = TcpPort.open(server, InetAddress.getLoopbackAddress(), 0, Optional.empty())) {
            FrameFixture desk = openDesk();
            watch.begin();
            desk.menuItemWithPath("Work", "Fetch from a logger…").click();
            JOptionPaneFixture which = desk.optionPane();
            which.comboBox("where").replaceText("127.0.0.1:" + port.port());
            Screens.keep(SwingUtilities.getWindowAncestor(which.target()), "desk-logger");
            which.okButton().click();
            JFileChooserFixture folder = desk.fileChooser("choose folder");
            folder.setCurrentDirectory(home.toFile());
            folder.selectFile(here.toFile()).approve();
            until("both are here", () -> desk.label("status").text().equals("2 recordings brought in"));
            assertEquals(2, desk.list("hold tests").contents().length);
            assertEquals(Set.of(), watch.misplaced());
            robot.pressAndReleaseKey(KeyEvent.VK_ESCAPE);
            desk.close();
        }
        try (var files = Files.list(here)) {
            assertEquals(
                    2, files.filter(each -> each.toString().endsWith(".hold")).count());
        }
    }

    private void choose(FrameFixture desk, Path path) {
        desk.button("bring in").click();
        JFileChooserFixture chooser = desk.fileChooser("choose recordings");
        chooser.setCurrentDirectory(path.getParent().toFile());
        chooser.selectFile(path.toFile()).approve();
    }
}
