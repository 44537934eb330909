package org.holdtrace.desk;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.awt.Component;
import java.awt.Rectangle;
import java.awt.datatransfer.DataFlavor;
import java.awt.datatransfer.Transferable;
import java.awt.event.KeyEvent;
import java.io.File;
import java.io.IOException;
import java.net.Inet4Address;
import java.net.InetAddress;
import java.net.NetworkInterface;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import javax.jmdns.JmDNS;
import javax.jmdns.ServiceInfo;
import javax.swing.JComboBox;
import javax.swing.JComponent;
import javax.swing.SwingUtilities;
import javax.swing.TransferHandler;
import org.assertj.swing.edt.GuiActionRunner;
import org.assertj.swing.fixture.DialogFixture;
import org.assertj.swing.fixture.FrameFixture;
import org.assertj.swing.fixture.JFileChooserFixture;
import org.assertj.swing.fixture.JOptionPaneFixture;
import org.holdtrace.library.InputFile;
import org.holdtrace.library.Recordings;
import org.holdtrace.link.LinkKey;
import org.holdtrace.remote.FolderLogger;
import org.holdtrace.remote.NetworkLoggers;
import org.holdtrace.serve.LinkServer;
import org.holdtrace.serve.TcpPort;
import org.holdtrace.testdata.Multicast;
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

    @Test
    void whatIsNoTraceIsRefusedWithoutAQuestionAndALongHeaderLeavesTheFieldsInSight() throws IOException {
        byte[] noise = new byte[20_000];
        new Random(3).nextBytes(noise);
        Files.write(demo.resolve("noise.csv"), noise);
        FrameFixture desk = openDesk();
        choose(desk, demo.resolve("noise.csv"));
        until("it is refused", () -> desk.label("status").text().equals("0 recordings brought in"));
        assertEquals("1 was refused: why?", desk.button("refused").text());

        Path folder = Files.createDirectory(home.resolve("long"));
        Path asked = folder.resolve("a.csv");
        Files.writeString(
                asked, "t," + "pressure at the test port of the invented bench ".repeat(12) + "\n0,1\n0.1,1\n0.2,1\n");
        Files.copy(demo.resolve("08-thistle-clamp.csv"), folder.resolve("b.csv"));
        choose(desk, folder);
        DialogFixture columns = desk.dialog("columns");
        assertEquals("a.csv: what are the columns?", desk.label("status").text());
        Rectangle inside = columns.target().getBounds();
        for (String field : new String[] {"column 1 is", "column 1 in", "column 2 is", "column 2 in"}) {
            JComboBox<?> box = columns.comboBox(field).target();
            Rectangle at = new Rectangle(
                    box.getLocationOnScreen(), box.getVisibleRect().getSize());
            assertEquals(box.getSize(), at.getSize(), field + " is seen whole");
            assertTrue(inside.contains(at), field + " at " + at);
        }
        Screens.keep(columns.target(), "desk-columns-long");
        columns.button("leave columns").click();
        until("the other is there", () -> desk.label("status").text().equals("1 recording brought in"));
        desk.close();
    }

    @Test
    void whatIsDroppedAnywhereOnTheWindowIsBroughtInOrRefused() throws IOException {
        FrameFixture desk = openDesk();
        drop(desk.textBox("how to begin").target(), demo.resolve("08-thistle-clamp.csv"));
        until("it is there", () -> desk.label("status").text().equals("1 recording brought in"));
        String[] names = {"01-line-check.hold", "02-bramble-bucket-port-a.hold", "03-bramble-bucket-port-b.hold"};
        drop(desk.list("hold tests").target(), demo.resolve(names[0]));
        until("the second is there", () -> desk.list("hold tests").contents().length == 2);
        drop(desk.textBox("leak").target(), demo.resolve(names[1]));
        until("the third is there", () -> desk.list("hold tests").contents().length == 3);
        desk.tabbedPane("beside the trace").selectTab("Setup");
        drop(desk.textBox("limit").target(), demo.resolve(names[2]));
        until("the fourth is there", () -> desk.list("hold tests").contents().length == 4);
        desk.tabbedPane("views").selectTab("Compare");
        drop(desk.table("leak rates").target(), demo);
        until("all are there", () -> desk.label("status").text().equals("10 recordings brought in"));
        Path gone = Files.createSymbolicLink(home.resolve("link.hold"), home.resolve("gone.hold"));
        drop(desk.table("leak rates").target(), gone);
        until("it is over", () -> desk.label("status").text().equals("0 recordings brought in"));
        assertEquals("1 was refused: why?", desk.button("refused").text());
        desk.close();
    }

    /** As the window system does it: whatever lies deepest under the mouse and takes drops is handed what is dropped. */
    private static void drop(Component where, Path path) {
        assertTrue(GuiActionRunner.execute(() -> {
            Component takes = where;
            while (takes.getDropTarget() == null) {
                takes = takes.getParent();
            }
            TransferHandler handler = ((JComponent) takes).getTransferHandler();
            TransferHandler.TransferSupport support =
                    new TransferHandler.TransferSupport(takes, new Dragged(List.of(path.toFile())));
            return handler.canImport(support) && handler.importData(support);
        }));
    }

    /** What a file manager hands over. */
    record Dragged(List<File> files) implements Transferable {
        @Override
        public DataFlavor[] getTransferDataFlavors() {
            return new DataFlavor[] {DataFlavor.javaFileListFlavor};
        }

        @Override
        public boolean isDataFlavorSupported(DataFlavor flavor) {
            return flavor.equals(DataFlavor.javaFileListFlavor);
        }

        @Override
        public Object getTransferData(DataFlavor flavor) {
            return files;
        }
    }

    @Test
    void aLoggerThatAnnouncesItselfIsFoundByTheButtonAndItsSessionsAreFetched() throws IOException {
        InetAddress here = ownAddress();
        Path there = Files.createDirectory(home.resolve("logger"));
        Files.copy(demo.resolve("02-bramble-bucket-port-a.hold"), there.resolve("2026-03-01-0201.hold"));
        Path keyFile = Files.writeString(home.resolve("bench.key"), "a key for the bench of this test\n");
        try (LinkServer server = new LinkServer(new FolderLogger(there), "Holdtrace logger test", line -> {});
                TcpPort port = TcpPort.open(server, here, 0, Optional.of(LinkKey.read(keyFile)));
                JmDNS announcing = Multicast.announcing(here)) {
            announcing.registerService(ServiceInfo.create(
                    NetworkLoggers.SERVICE,
                    "Holdtrace logger bench",
                    port.port(),
                    0,
                    0,
                    Map.of("name", "bench logger", "version", "1.0")));
            FrameFixture desk = openDesk();
            desk.menuItemWithPath("Work", "Fetch from a logger…").click();
            JOptionPaneFixture which = desk.optionPane();
            which.comboBox("where").replaceText("");
            which.button("look on the network").click();
            String address = here.getHostAddress() + ":" + port.port();
            String found = address + " (bench logger, link version 1.0)";
            until("it is found", () -> which.textBox("loggers found").text().contains(found));
            Screens.keep(SwingUtilities.getWindowAncestor(which.target()), "desk-loggers-found");
            which.comboBox("where").selectItem(address + "  (bench logger, link version 1.0)");
            which.textBox("key").setText(keyFile.toString());
            which.okButton().click();
            JFileChooserFixture folder = desk.fileChooser("choose folder");
            folder.setCurrentDirectory(home.toFile());
            Path to = Files.createDirectory(home.resolve("fetched"));
            folder.selectFile(to.toFile()).approve();
            until("it is here", () -> desk.label("status").text().equals("1 recording brought in"));
            desk.close();
        }
    }

    /** An address of this computer in a network, since loggers are looked for in networks. */
    private static InetAddress ownAddress() throws IOException {
        for (NetworkInterface each : Collections.list(NetworkInterface.getNetworkInterfaces())) {
            if (each.isUp() && !each.isLoopback() && !each.isPointToPoint() && each.supportsMulticast()) {
                for (InetAddress address : Collections.list(each.getInetAddresses())) {
                    if (address instanceof Inet4Address) {
                        return address;
                    }
                }
            }
        }
        assumeTrue(false, "skipped: this computer is in no network that takes multicast");
        throw new AssertionError();
    }
}
