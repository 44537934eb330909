package org.holdtrace.panel;

import com.pi4j.context.Context;
import com.pi4j.io.gpio.digital.DigitalInput;
import com.pi4j.io.gpio.digital.DigitalOutput;
import com.pi4j.io.gpio.digital.DigitalState;
import com.pi4j.io.gpio.digital.PullResistance;
import java.util.Arrays;
import java.util.OptionalInt;
import java.util.function.Consumer;
import org.holdtrace.adc.PiBoard;

/** The panel's wires, by Pi4J. Outputs are set only where they change. */
final class Pi4jWires implements PanelWires {
    private static final int LAMPS = 3;
    private static final int BEEPER = 3;
    private static final String[] NAMES = {"left lamp", "middle lamp", "right lamp", "beeper"};

    private final PiBoard board;
    private final Consumer<String> says;
    /** Null where absent. */
    private final DigitalOutput[] outputs = new DigitalOutput[LAMPS + 1];

    private final boolean[] now = new boolean[LAMPS + 1];
    private final boolean lampsLightWhenHigh;
    /** Null where absent. */
    private DigitalInput button;

    Pi4jWires(PiBoard board, PanelPins pins, Consumer<String> says) {
        this.board = board;
        this.says = says;
        lampsLightWhenHigh = pins.lampsLightWhenHigh();
        OptionalInt[] wired = {pins.left(), pins.middle(), pins.right(), pins.beeper()};
        for (int i = 0; i < wired.length; i++) {
            if (wired[i].isPresent()) {
                outputs[i] = output(i, wired[i].getAsInt());
            }
        }
        if (pins.button().isPresent()) {
            button = button(pins.button().getAsInt());
        }
    }

    private DigitalOutput output(int number, int gpio) {
        Context context = board.context();
        DigitalState off = state(number, false);
        try {
            return context.create(DigitalOutput.newConfigBuilder(context)
                    .id(board.newId("panel"))
                    .address(gpio)
                    .initial(off)
                    .shutdown(off)
                    .build());
        } catch (RuntimeException e) {
            says.accept("panel: no " + NAMES[number] + " at GPIO " + gpio + ": " + e.getMessage());
            return null;
        }
    }

    private DigitalInput button(int gpio) {
        Context context = board.context();
        try {
            return context.create(DigitalInput.newConfigBuilder(context)
                    .id(board.newId("button"))
                    .address(gpio)
                    .pull(PullResistance.PULL_UP)
                    .debounce(0L)
                    .build());
        } catch (RuntimeException e) {
            says.accept("panel: no button at GPIO " + gpio + ": " + e.getMessage());
            return null;
        }
    }

    private DigitalState state(int number, boolean on) {
        return DigitalState.getState(on == (number == BEEPER || lampsLightWhenHigh));
    }

    @Override
    public void lamp(int number, boolean lit) {
        set(number, lit);
    }

    @Override
    public void beep(boolean on) {
        set(BEEPER, on);
    }

    private void set(int number, boolean on) {
        if (outputs[number] == null || now[number] == on) {
            return;
        }
        now[number] = on;
        try {
            outputs[number].state(state(number, on));
        } catch (RuntimeException e) {
            outputs[number] = null;
            says.accept("panel: the " + NAMES[number] + " has failed: " + e.getMessage());
        }
    }

    @Override
    public boolean isDown() {
        if (button == null) {
            return false;
        }
        try {
            return button.state() == DigitalState.LOW;
        } catch (RuntimeException e) {
            button = null;
            says.accept("panel: the button has failed: " + e.getMessage());
            return false;
        }
    }

    @Override
    public void close() {
        for (int i = 0; i < outputs.length; i++) {
            set(i, false);
        }
        Arrays.fill(outputs, null);
    }
}
