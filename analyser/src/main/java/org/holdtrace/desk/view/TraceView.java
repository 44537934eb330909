package org.holdtrace.desk.view;

import java.awt.BasicStroke;
import java.awt.Cursor;
import java.awt.Dimension;
import java.awt.Graphics;
import java.awt.Graphics2D;
import java.awt.Point;
import java.awt.event.ActionEvent;
import java.awt.event.MouseEvent;
import java.awt.event.MouseWheelEvent;
import java.awt.geom.Rectangle2D;
import java.util.Optional;
import java.util.Set;
import javax.accessibility.AccessibleRole;
import javax.swing.AbstractAction;
import javax.swing.JComponent;
import javax.swing.KeyStroke;
import javax.swing.ToolTipManager;
import org.holdtrace.desk.look.Drawing;
import org.holdtrace.desk.look.Keys;
import org.holdtrace.desk.look.PhaseLook;
import org.holdtrace.desk.look.Theme;
import org.holdtrace.trace.HoldTest;
import org.holdtrace.trace.PhaseSpan;
import org.holdtrace.wording.Figures;

/**
 * The trace from near and afar. Wheel or + and − zoom, drag or ← and → pan, Home shows all; a click or 1 and 2 set the
 * first and second cursor (right click the second), Ctrl with ← and → moves the one set last by a pixel. Boundaries of
 * phases are dragged by mouse; B and Shift B choose one, Shift with ← and → moves it by a pixel. On the event thread, as
 * every component.
 */
public final class TraceView extends Drawing {
    private static final long serialVersionUID = 1L;
    private static final double ZOOM = 0.8;
    /** So near to a boundary the mouse takes hold of it, pixels. */
    private static final double REACH = 5;

    private transient TraceModel model;
    private transient Theme theme;
    private transient TimeWindow window;
    private final transient Cursors cursors = new Cursors();
    private double pressedX;
    private transient TimeWindow pressedWindow;
    private final transient Sheet sheet = new Sheet();
    private final transient Handles handles = new Handles();
    private transient BoundaryMover mover = (holdTest, boundary, toS) -> {};
    private boolean dragging;

    /** A view of {@code model} in the look of {@code theme}, all of it shown. */
    public TraceView(TraceModel model, Theme theme) {
        super(AccessibleRole.CANVAS);
        this.model = model;
        this.theme = theme;
        this.window = model.whole();
        setFocusable(true);
        setOpaque(true);
        setName("trace");
        setPreferredSize(new Dimension(900, 500));
        ToolTipManager.sharedInstance().registerComponent(this);
        enableEvents(java.awt.AWTEvent.MOUSE_EVENT_MASK
                | java.awt.AWTEvent.MOUSE_MOTION_EVENT_MASK
                | java.awt.AWTEvent.MOUSE_WHEEL_EVENT_MASK
                | java.awt.AWTEvent.FOCUS_EVENT_MASK);
        bind("PLUS", () -> zoom(middleS(), ZOOM));
        bind("MINUS", () -> zoom(middleS(), 1 / ZOOM));
        bind("LEFT", () -> show(window.panned(-0.1 * window.durationS(), this.model.whole())));
        bind("RIGHT", () -> show(window.panned(0.1 * window.durationS(), this.model.whole())));
        bind("HOME", () -> show(this.model.whole()));
        bind("1", () -> setCursor(0, window.fromS() + window.durationS() / 3));
        bind("2", () -> setCursor(1, window.fromS() + window.durationS() * 2 / 3));
        bind("ctrl LEFT", () -> nudge(-1));
        bind("ctrl RIGHT", () -> nudge(1));
        bind("B", () -> chooseBoundary(1));
        bind("shift B", () -> chooseBoundary(-1));
        bind("shift LEFT", () -> nudgeBoundary(-1));
        bind("shift RIGHT", () -> nudgeBoundary(1));
        bind("ESCAPE", () -> chooseBoundary(0));
        describe();
    }

    /** Tells {@code next} of boundaries that are moved. */
    public void setMover(BoundaryMover next) {
        mover = next;
    }

    /** Shows another model, such as new results of the same trace; the stretch shown and the cursors stay. */
    public void setModel(TraceModel next) {
        model = next;
        if (!dragging) {
            handles.followed();
        }
        show(window.inside(next.whole()));
    }

    /** Shows another recording: all of it, with no cursor set. */
    public void begin(TraceModel next) {
        model = next;
        cursors.clear();
        handles.choose(null);
        show(next.whole());
    }

    /** Takes on another look. */
    public void setTheme(Theme next) {
        theme = next;
        repaint();
    }

    /** The stretch of time that is shown. */
    public TimeWindow window() {
        return window;
    }

    /** Shows {@code wanted}, as far as it lies within the trace. */
    public void show(TimeWindow wanted) {
        window = wanted.inside(model.whole());
        describe();
        repaint();
    }

    /** Puts cursor 0 or 1 at {@code timeS}, s, kept within the trace. */
    public void setCursor(int which, double timeS) {
        cursors.set(which, timeS, model.whole());
        describe();
        repaint();
    }

    /** Where the boundary that is chosen is shown, in the view's own pixels. */
    public Optional<Point> placeOfChosenBoundary() {
        Rectangle2D plot = plot();
        return handles.chosen()
                .map(each -> new Point(
                        (int) Math.round(plot.getX()
                                + (handles.atS(model, each) - window.fromS()) / window.durationS() * plot.getWidth()),
                        (int) plot.getCenterY()));
    }

    /** What the cursors read, once both are set. */
    public Optional<CursorReading> reading() {
        return cursors.reading(model);
    }

    /** Lets {@code action} happen on {@code stroke}, as {@link KeyStroke#getKeyStroke(String)} reads it. */
    public void bind(String stroke, Runnable action) {
        for (String same : Keys.same(stroke)) {
            getInputMap().put(Keys.of(same), stroke);
        }
        getActionMap().put(stroke, new AbstractAction() {
            private static final long serialVersionUID = 1L;

            @Override
            public void actionPerformed(ActionEvent event) {
                action.run();
            }
        });
    }

    /** Lets the keys work as well while {@code other} has the keyboard, but for those that mean something of its own there. */
    public void keysWorkIn(JComponent other, Set<String> otherwiseThere) {
        for (KeyStroke each : getInputMap().keys()) {
            Object action = getInputMap().get(each);
            if (!otherwiseThere.contains(action)) {
                other.getInputMap().put(each, action);
                other.getActionMap().put(action, getActionMap().get(action));
            }
        }
    }

    private void zoom(double atS, double factor) {
        show(window.zoomed(atS, factor, model.whole()));
    }

    private void nudge(int pixels) {
        cursors.nudge(pixels * window.durationS() / plot().getWidth(), model.whole());
        describe();
        repaint();
    }

    private void chooseBoundary(int by) {
        if (by == 0) {
            handles.choose(null);
        } else {
            handles.step(model, window, by);
        }
        describe();
        repaint();
    }

    private void nudgeBoundary(int pixels) {
        handles.chosen()
                .ifPresent(each ->
                        moveBoundary(handles.atS(model, each) + pixels * window.durationS() / plot().getWidth()));
    }

    private void moveBoundary(double timeS) {
        handles.moveTo(model, timeS)
                .ifPresent(
                        toS -> handles.chosen().ifPresent(each -> mover.move(each.holdTest(), each.boundary(), toS)));
        describe();
        repaint();
    }

    /** The boundary within reach of the mouse. */
    private Optional<Handles.Handle> handleNear(MouseEvent event) {
        Rectangle2D plot = plot();
        if (!plot.contains(event.getX(), event.getY())) {
            return Optional.empty();
        }
        return handles.nearest(model, timeS(event.getX()), theme.scaled(REACH) * window.durationS() / plot.getWidth());
    }

    private double middleS() {
        return (window.fromS() + window.toS()) / 2;
    }

    private Room room() {
        return Room.of(getFontMetrics(theme.font(1)), getWidth(), getHeight(), model.hasFit());
    }

    private Rectangle2D plot() {
        return room().plot();
    }

    private double timeS(double x) {
        Rectangle2D plot = plot();
        return window.fromS() + (x - plot.getX()) / plot.getWidth() * window.durationS();
    }

    @Override
    protected void processMouseEvent(MouseEvent event) {
        if (event.getID() == MouseEvent.MOUSE_PRESSED) {
            requestFocusInWindow();
            pressedX = event.getX();
            pressedWindow = window;
            Optional<Handles.Handle> near =
                    event.getButton() == MouseEvent.BUTTON1 ? handleNear(event) : Optional.empty();
            dragging = near.isPresent();
            near.ifPresent(each -> {
                handles.choose(each);
                describe();
                repaint();
            });
        } else if (event.getID() == MouseEvent.MOUSE_RELEASED) {
            if (!dragging && Math.abs(event.getX() - pressedX) < 3) {
                setCursor(event.getButton() == MouseEvent.BUTTON1 ? 0 : 1, timeS(event.getX()));
            }
            dragging = false;
        }
        super.processMouseEvent(event);
    }

    @Override
    protected void processMouseMotionEvent(MouseEvent event) {
        if (event.getID() == MouseEvent.MOUSE_MOVED) {
            setCursor(Cursor.getPredefinedCursor(
                    handleNear(event).isPresent() ? Cursor.E_RESIZE_CURSOR : Cursor.DEFAULT_CURSOR));
        } else if (event.getID() == MouseEvent.MOUSE_DRAGGED && dragging) {
            moveBoundary(timeS(event.getX()));
        } else if (event.getID() == MouseEvent.MOUSE_DRAGGED && pressedWindow != null) {
            double byS = (pressedX - event.getX()) / plot().getWidth() * pressedWindow.durationS();
            show(pressedWindow.panned(byS, model.whole()));
        }
        super.processMouseMotionEvent(event);
    }

    @Override
    protected void processMouseWheelEvent(MouseWheelEvent event) {
        zoom(timeS(event.getX()), Math.pow(ZOOM, -event.getPreciseWheelRotation()));
    }

    @Override
    protected void processFocusEvent(java.awt.event.FocusEvent event) {
        super.processFocusEvent(event);
        repaint();
    }

    @Override
    public String getToolTipText(MouseEvent event) {
        double atS = timeS(event.getX());
        if (atS < window.fromS() || atS > window.toS()) {
            return null;
        }
        double pressurePa = CursorReading.pressurePa(model.pyramid().trace(), atS);
        String reading = Figures.significant(atS, 6) + " s: " + shown(pressurePa) + " as recorded";
        for (HoldTest test : model.tests()) {
            for (PhaseSpan span : test.phases()) {
                if (atS >= span.fromS() && atS < span.toS()) {
                    reading = PhaseLook.words(span.phase()) + " of hold test " + test.number() + ", " + reading + ", "
                            + shown(pressurePa - test.rest().zeroPa()) + " with the zero error taken off";
                    break;
                }
            }
        }
        return reading;
    }

    private String shown(double pressurePa) {
        return Figures.significant(model.pressure().fromSi(pressurePa), 5) + " "
                + model.pressure().symbol();
    }

    private void describe() {
        getAccessibleContext().setAccessibleName("pressure over time");
        getAccessibleContext()
                .setAccessibleDescription("Shows " + Figures.significant(window.fromS(), 5) + " to "
                        + Figures.significant(window.toS(), 5) + " s; "
                        + reading()
                                .map(each -> "cursors: " + each.words(model.pressure()))
                                .orElse("press 1 and 2 to set two cursors")
                        + handles.words(model)
                                .map(each -> "; boundary chosen: " + each)
                                .orElse(model.tests().isEmpty() ? "" : "; press B to choose a boundary"));
    }

    @Override
    protected void paintComponent(Graphics graphics) {
        Graphics2D screen = (Graphics2D) graphics;
        Graphics2D g = sheet.begin(screen, getWidth(), getHeight());
        Room room = room();
        new TracePainter(g, sheet, model, window, theme, room).paint();
        handles.paint(g, model, window, room.plot(), theme);
        cursors.paint(g, model, window, room, theme);
        if (isFocusOwner()) {
            g.setColor(theme.palette().accent());
            g.setStroke(new BasicStroke(3f));
            g.draw(new Rectangle2D.Double(1.5, 1.5, getWidth() - 3.0, getHeight() - 3.0));
        }
        g.dispose();
        sheet.show(screen);
    }
}
