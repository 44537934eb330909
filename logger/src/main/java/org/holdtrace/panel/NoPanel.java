package org.holdtrace.panel;

import java.util.function.Consumer;

/** No panel: shows nothing and is never pressed. */
public final class NoPanel implements Panel {
    @Override
    public void show(PanelSign sign) {
        // There is nothing to show it on.
    }

    @Override
    public void onPress(Consumer<Press> listener) {
        // There is nothing to press.
    }

    @Override
    public void close() {
        // Nothing is open.
    }
}
