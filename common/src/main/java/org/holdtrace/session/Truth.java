package org.holdtrace.session;

import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.holdtrace.trace.Stroke;

/**
 * What a simulated hold test was made with. Stands in simulated sessions only; an estimator must never look at it.
 *
 * @param holdTest which hold test of the session, from 1; 0 for all of them
 * @param numbers by name, the SI unit in the name: {@code leakM3PerS}, {@code complianceM3PerPa}
 * @param words by name: {@code law} is {@code laminar}
 * @param strokes when oil was really pumped, s since the session began
 */
public record Truth(int holdTest, Map<String, Double> numbers, Map<String, String> words, List<Stroke> strokes) {
    public Truth {
        numbers = Collections.unmodifiableMap(new TreeMap<>(numbers));
        words = Collections.unmodifiableMap(new TreeMap<>(words));
        strokes = List.copyOf(strokes);
    }
}
