package org.holdtrace.judge;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * A machine, what is complained of, its circuit and the hold tests made on it, as {@code NAME.case.json} holds them
 * ({@code docs/case.md}).
 *
 * @param machine which machine
 * @param note free text
 * @param complaint what is complained of
 * @param circuit nodes and the elements between them
 * @param testLine the hand pump with its hose
 * @param oilGrade viscosity grade of the machine's oil
 * @param referencePa pressure every leak of the case is stated at, Pa
 * @param referenceTemperatureK oil temperature every leak is carried to, K; empty: as tested
 * @param tests the hold tests made so far, in order
 * @param stopped why the person stops although something is not tested; empty: goes on
 */
public record CaseFile(
        String machine,
        String note,
        Complaint complaint,
        Circuit circuit,
        TestLine testLine,
        Optional<String> oilGrade,
        double referencePa,
        OptionalDouble referenceTemperatureK,
        List<CaseTest> tests,
        Optional<String> stopped) {
    public CaseFile {
        tests = List.copyOf(tests);
    }

    /** The cylinder complained of. */
    public Cylinder cylinder() {
        return circuit.cylinder(complaint.actuator());
    }
}
