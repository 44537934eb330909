package org.holdtrace.panel;

import java.util.function.Consumer;

/** One button, three lamps and a beeper. Absent hardware is no error: then it shows nothing and is never pressed. */
public interface Panel extends AutoCloseable {
    /** Shows a sign until the next; may be called from any thread, returns at once. */
    void show(PanelSign sign);

    /** Who is told of presses: of a short one and of one held for two seconds or more. Called on a thread of the panel's. */
    void onPress(Consumer<Press> listener);

    /** How the button was pressed. */
    enum Press {
        SHORT,
        LONG
    }

    @Override
    void close();
}
