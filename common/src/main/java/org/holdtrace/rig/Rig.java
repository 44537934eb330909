package org.holdtrace.rig;

import java.util.List;

/**
 * All true parameters of a simulated rig and of what is done with it.
 *
 * @param fill the oil and the air that are trapped
 * @param walls what holds them, and how it swells and creeps
 * @param heat how the heat of compression leaves the oil, and how the surroundings warm
 * @param pump the hand pump
 * @param hand how it is worked
 * @param leaks where oil is lost
 * @param sensor transducer and converter
 * @param tests the hold tests of the session in order, at least one
 */
public record Rig(
        OilFill fill,
        Walls walls,
        Heat heat,
        HandPump pump,
        Hand hand,
        Leaks leaks,
        Sensor sensor,
        List<TestPlan> tests) {
    public Rig {
        tests = List.copyOf(tests);
        if (tests.isEmpty()) {
            throw new IllegalArgumentException("a rig needs at least one hold test to run");
        }
        for (TestPlan later : tests.subList(1, tests.size())) {
            if (later.startsPumpedUp()) {
                throw new IllegalArgumentException("only the first hold test of a recording can start pumped up");
            }
        }
        for (TestPlan earlier : tests.subList(0, tests.size() - 1)) {
            if (earlier.bleedS() == 0) {
                throw new IllegalArgumentException(
                        "only the last hold test of a recording can end without a bleed-off");
            }
        }
    }

    /** The same rig with other leaks. */
    public Rig withLeaks(Leaks other) {
        return new Rig(fill, walls, heat, pump, hand, other, sensor, tests);
    }

    /** The same rig with another pump. */
    public Rig withPump(HandPump other) {
        return new Rig(fill, walls, heat, other, hand, leaks, sensor, tests);
    }

    /** The same rig with another transducer. */
    public Rig withSensor(Sensor other) {
        return new Rig(fill, walls, heat, pump, hand, leaks, other, tests);
    }

    /** The same rig, other tests. */
    public Rig withTests(List<TestPlan> others) {
        return new Rig(fill, walls, heat, pump, hand, leaks, sensor, others);
    }
}
