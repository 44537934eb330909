package org.holdtrace.desk.classroom;

import java.util.List;
import java.util.Optional;
import org.holdtrace.fluid.EntrainedAir;
import org.holdtrace.fluid.Oil;
import org.holdtrace.leak.LeakLaw;
import org.holdtrace.quantity.Quantity;
import org.holdtrace.quantity.Unit;
import org.holdtrace.rig.Hand;
import org.holdtrace.rig.HandPump;
import org.holdtrace.rig.Heat;
import org.holdtrace.rig.Leaks;
import org.holdtrace.rig.OilFill;
import org.holdtrace.rig.Rig;
import org.holdtrace.rig.Sensor;
import org.holdtrace.rig.TestPlan;
import org.holdtrace.rig.Walls;
import org.holdtrace.session.TestSetup;

/** The invented line of the demo workshop, for driving by hand: pump, two metres of hose, an actuator's port. */
final class TrainingLine {
    /** Samples a second. */
    static final double RATE_HZ = 250;

    private static final String GRADE = "ISO VG 46";
    private static final double OIL_K = Oil.ZERO_CELSIUS_K + 21;
    private static final double STROKE_M3 = Unit.CM3.toSi(0.45);
    private static final double VOLUME_M3 = Unit.CM3.toSi(51);
    private static final double MODULUS_PA = Unit.GPA.toSi(1.56);
    private static final double RANGE_PA = Unit.BAR.toSi(250);
    private static final double RELIEF_PA = Unit.BAR.toSi(200);
    private static final double LIMIT_CM3_PER_MIN = 2;
    private static final LeakLaw LINE_LEAK = new LeakLaw.Laminar(Unit.CM3_PER_MIN.toSi(0.006) / Unit.BAR.toSi(120));

    private TrainingLine() {}

    /** The component's leak beside the line's own. */
    static Leaks leaks(LeakLaw component) {
        return new Leaks(component, LINE_LEAK);
    }

    static Rig rig() {
        OilFill fill = OilFill.of(
                Oil.ofGrade(GRADE).orElseThrow(), OIL_K, VOLUME_M3, MODULUS_PA, new EntrainedAir(0.004, 1.15), 900);
        Walls walls = new Walls(
                Unit.CM3_PER_BAR.toSi(0.0003),
                Unit.CM3_PER_BAR.toSi(0.0085),
                0.75,
                Unit.BAR.toSi(120),
                0.012,
                0.2,
                3600,
                35e-6);
        Sensor sensor = new Sensor(
                RATE_HZ,
                0,
                Sensor.Scale.sixteenBit(RANGE_PA),
                new Sensor.Errors(0, Unit.BAR.toSi(0.2), 0, 0, 0.002),
                new Sensor.Noise(Unit.BAR.toSi(0.03), Unit.BAR.toSi(0.015), 0.4, 0),
                Sensor.Faults.none(),
                false,
                false);
        return new Rig(
                fill,
                walls,
                new Heat(List.of(new Heat.Mode(3.5, 0.65), new Heat.Mode(18, 0.35)), 0, 0, 1),
                new HandPump(STROKE_M3, 0.012, 0, RELIEF_PA),
                Hand.regular(0.5, 0.5),
                leaks(Fault.SOUND.law(Fault.SLIGHT)),
                sensor,
                List.of(TestPlan.usual(5, Unit.BAR.toSi(125), 60, 3, Unit.CM3_PER_BAR.toSi(0.012))));
    }

    /** What a careful technician would state of it. */
    static TestSetup setup() {
        TestSetup none = TestSetup.unknown();
        return new TestSetup(
                Optional.of("training line"),
                none.component(),
                none.componentKind(),
                none.port(),
                Optional.of(GRADE),
                Optional.of(new Quantity(OIL_K, 2)),
                Optional.of(new Quantity(MODULUS_PA, 0.03 * MODULUS_PA)),
                Optional.of(new Quantity(0.004, 0.002)),
                Optional.of(new Quantity(VOLUME_M3, 0.03 * VOLUME_M3)),
                none.lineComplianceM3PerPa(),
                Optional.of(new Quantity(STROKE_M3, 0.02 * STROKE_M3)),
                none.bledVolumeM3(),
                Optional.of(0.0),
                Optional.of(RANGE_PA),
                Optional.of(0.0025),
                none.referencePressurePa(),
                none.reliefSettingPa(),
                Optional.of(Quantity.exactly(Unit.CM3_PER_MIN.toSi(LIMIT_CM3_PER_MIN))));
    }
}
