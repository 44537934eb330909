package org.holdtrace.desk.classroom;

import java.awt.BorderLayout;
import java.awt.Dimension;
import java.awt.Font;
import java.awt.GridLayout;
import java.awt.event.ActionEvent;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.atomic.AtomicBoolean;
import javax.swing.AbstractAction;
import javax.swing.JPanel;
import javax.swing.KeyStroke;
import javax.swing.SwingUtilities;
import javax.swing.Timer;
import org.holdtrace.desk.look.Keys;
import org.holdtrace.desk.look.Theme;
import org.holdtrace.quantity.Unit;
import org.holdtrace.wording.ShownUnits;

/**
 * The screen for the class: one or two lanes, a title above, the keys below. Drawn when something new came, at most
 * thirty times a second however often samples come. On the event thread, but for the sources' own threads.
 */
public final class ClassView extends JPanel {
    /** Stretches of time the trace can show, s. */
    static final double[] WINDOWS_S = {10, 20, 40, 60, 120, 300};

    static final int USUAL_WINDOW = 2;

    private static final long serialVersionUID = 1L;
    private static final ShownUnits IMPERIAL = ShownUnits.parse("psi, in3");
    private static final int MOST_LANES = 2;
    private static final int FRAME_MS = 33;
    /** Figures that change more often cannot be read. */
    private static final int FIGURES_EVERY_MS = 200;

    /** So long something is said in the title's place. */
    private static final int SAID_MS = 5000;

    private static final double LEAST_TOP_PA = Unit.BAR.toSi(10);
    /** Share of the height. */
    private static final double LARGEST_TITLE = 0.07;

    private transient Theme theme;
    private final Plate title;
    private final JPanel lanes = new JPanel();
    private final KeyLine keyLine;
    private transient List<LaneView> views = List.of();
    private transient List<Source> sources = List.of();
    private final transient List<Key> ownKeys = new ArrayList<>();
    private transient List<String> bound = List.of();
    private transient ShownUnits units = ShownUnits.METRIC;
    private int window = USUAL_WINDOW;
    private double topPa = LEAST_TOP_PA;
    private final transient Cover cover = new Cover(this::views, () -> units);
    private final AtomicBoolean due = new AtomicBoolean();
    private final transient Timer frame = new Timer(FRAME_MS, event -> frameIsOver());
    private final transient Timer figures = new Timer(FIGURES_EVERY_MS, event -> refreshFigures());
    private final transient Timer said = new Timer(SAID_MS, event -> say(""));
    private String saying = "";
    private boolean namesCovered;
    private boolean framing;

    /** An empty screen in the look of {@code theme}. */
    public ClassView(Theme theme) {
        super(new BorderLayout());
        this.theme = theme;
        title = new Plate("title", "", Font.PLAIN, true, theme);
        keyLine = new KeyLine(theme);
        frame.setRepeats(false);
        said.setRepeats(false);
        setName("class view");
        getAccessibleContext().setAccessibleName("class view");
        setFocusable(true);
        add(title, BorderLayout.NORTH);
        add(lanes, BorderLayout.CENTER);
        add(keyLine, BorderLayout.SOUTH);
        addKey(new Key("V", "V", "verdict", () -> cover.set(!cover.isOff())));
        addKey(new Key("N", "N", "names", () -> namesCovered = !namesCovered));
        addKey(new Key("UP", "↑ ↓", "stretch", () -> setWindow(window + 1)));
        addKey(new Key("DOWN", "↓", "", () -> setWindow(window - 1)));
        addKey(new Key(
                "U",
                "U",
                "bar / psi",
                () -> setUnits(this.units.pressure() == Unit.BAR ? IMPERIAL : ShownUnits.METRIC)));
        addKey(new Key(
                "D", "D", "dark / light", () -> setTheme(new Theme(!this.theme.dark(), this.theme.textPercent()))));
        show(List.of());
    }

    /** Adds a key of the window around this screen, such as one that opens a recording. */
    void addKey(Key key) {
        ownKeys.add(key);
        bindKeys();
    }

    /** Shows {@code next} instead of what was shown; what was shown ends. */
    void show(List<Source> next) {
        sources.forEach(Source::close);
        sources = List.copyOf(next);
        layOut(MOST_LANES);
        sources.forEach(source -> source.begin(this::changed));
        refresh();
        if (sources.isEmpty()) {
            figures.stop();
        } else {
            figures.start();
        }
    }

    /** Shows {@code beside} at the right of {@code first}, which goes on if it was shown, with its last lane. */
    void showBeside(Source first, Source beside) {
        boolean running = sources.contains(first);
        sources.stream().filter(each -> each != first).forEach(Source::close);
        sources = List.of(first, beside);
        layOut(1);
        if (!running) {
            first.begin(this::changed);
        }
        beside.begin(this::changed);
        refresh();
        figures.start();
    }

    /** Makes the views, of each source the last {@code most} lanes. */
    private void layOut(int most) {
        List<LaneView> made = new ArrayList<>();
        lanes.removeAll();
        for (Source source : sources) {
            List<Lane> all = source.lanes();
            for (Lane lane : all.subList(Math.max(0, all.size() - most), all.size())) {
                made.add(new LaneView(lane, theme));
            }
        }
        views = List.copyOf(made);
        lanes.setLayout(new GridLayout(1, Math.max(1, made.size()), 6, 0));
        made.forEach(lanes::add);
        topPa = LEAST_TOP_PA;
        cover.set(false);
        bindKeys();
        setTheme(theme);
        lanes.revalidate();
    }

    /** Title and keys grow with the screen and with the type, as far as that leaves the screen to the lanes. */
    @Override
    public void doLayout() {
        double wished = 2.0 * theme.font(1).getSize2D() * KeyLine.growth(getHeight());
        title.setPreferredSize(new Dimension(0, (int) Math.min(wished, LARGEST_TITLE * getHeight())));
        super.doLayout();
    }

    /** The sources that are shown. */
    List<Source> sources() {
        return sources;
    }

    List<LaneView> views() {
        return views;
    }

    /** The look. */
    public Theme theme() {
        return theme;
    }

    /** Takes on another look. */
    public void setTheme(Theme next) {
        theme = next;
        setBackground(next.palette().surface());
        lanes.setBackground(next.palette().surface());
        title.setTheme(next);
        keyLine.setTheme(next);
        views.forEach(view -> view.setTheme(next));
        cover.refresh();
        repaint();
    }

    /** Shows figures in {@code next}. */
    public void setUnits(ShownUnits next) {
        units = next;
        topPa = LEAST_TOP_PA;
        refresh();
        cover.refresh();
    }

    private void setWindow(int next) {
        window = Math.max(0, Math.min(WINDOWS_S.length - 1, next));
        refresh();
    }

    /** Whether nobody looks for now: what can stand still does. */
    void rest(boolean now) {
        sources.forEach(source -> source.rest(now));
        cover.rest(now);
        if (now) {
            figures.stop();
        } else {
            figures.start();
        }
    }

    /** Ends all sources. */
    public void end() {
        show(List.of());
    }

    private void bindKeys() {
        for (String stroke : bound) {
            getInputMap(WHEN_ANCESTOR_OF_FOCUSED_COMPONENT).remove(KeyStroke.getKeyStroke(stroke));
            getActionMap().remove(stroke);
        }
        List<String> now = new ArrayList<>();
        List<Key> all = new ArrayList<>();
        sources.forEach(source -> all.addAll(source.keys()));
        all.addAll(ownKeys);
        for (Key key : all) {
            for (String same : Keys.same(key.stroke())) {
                bind(same, key);
                now.add(same);
            }
        }
        bound = List.copyOf(now);
        keyLine.setKeys(all);
    }

    private void bind(String stroke, Key key) {
        getInputMap(WHEN_ANCESTOR_OF_FOCUSED_COMPONENT).put(KeyStroke.getKeyStroke(stroke), stroke);
        getActionMap().put(stroke, new AbstractAction() {
            private static final long serialVersionUID = 1L;

            @Override
            public void actionPerformed(ActionEvent event) {
                key.action().run();
                refresh();
            }
        });
    }

    /** Something new is there: it is drawn soon, at once where the last drawing is long enough ago. Any thread. */
    private void changed() {
        if (due.compareAndSet(false, true)) {
            SwingUtilities.invokeLater(this::drawWhenDue);
        }
    }

    private void drawWhenDue() {
        if (!framing && due.getAndSet(false)) {
            framing = true;
            frame.start();
            refreshStrips();
        }
    }

    private void frameIsOver() {
        framing = false;
        drawWhenDue();
    }

    /** Shows what is there now. */
    private void refresh() {
        refreshFigures();
        refreshStrips();
    }

    private void refreshFigures() {
        title.setText(
                !saying.isEmpty()
                        ? saying
                        : sources.isEmpty()
                                ? "class view"
                                : String.join(
                                        "   |   ",
                                        sources.stream().map(Source::title).toList()));
        for (int i = 0; i < views.size(); i++) {
            LaneView view = views.get(i);
            view.refreshFigures(namesCovered ? place(i) : view.lane().name(), units.pressure());
        }
    }

    /** What a lane is called while its name is covered. */
    private String place(int index) {
        return views.size() == 1 ? "the line" : index == 0 ? "left" : "right";
    }

    /** Says {@code what} in the title's place for a while; empty for the title at once. */
    void say(String what) {
        saying = what;
        if (what.isEmpty()) {
            said.stop();
        } else {
            said.restart();
        }
        refreshFigures();
    }

    private void refreshStrips() {
        double highest = 0;
        for (LaneView view : views) {
            double found = view.lane().highestPa(WINDOWS_S[window]);
            highest = found > highest ? found : highest;
        }
        double wanted = Math.max(
                LEAST_TOP_PA,
                units.pressure().toSi(roundUp(Math.max(1, units.pressure().fromSi(1.05 * highest)))));
        // A scale that follows each dip would hide that pressure falls.
        if (wanted > topPa || wanted < 0.4 * topPa) {
            topPa = wanted;
        }
        views.forEach(view -> view.refreshStrip(units.pressure(), WINDOWS_S[window], topPa));
    }

    /** The next of 1, 1.2, 1.6, 2, 2.5, 3, 4, 5, 6 and 8 times a power of ten, at {@code value} (above 0) or above it. */
    static double roundUp(double value) {
        double decade = Math.pow(10, Math.floor(Math.log10(value)));
        for (double factor : new double[] {1, 1.2, 1.6, 2, 2.5, 3, 4, 5, 6, 8}) {
            if (factor * decade >= value * (1 - 1e-9)) {
                return factor * decade;
            }
        }
        return 10 * decade;
    }

    /** Whether the verdict is to be seen. */
    boolean isUncovered() {
        return cover.isOff();
    }
}
