package org.holdtrace.estimate;

import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.holdtrace.session.TestSetup;

/** What grade and temperature of the oil tell of its modulus. */
final class OilKnowledge {
    private static final Pattern NUMBER = Pattern.compile("(\\d+(?:\\.\\d+)?)");

    private OilKnowledge() {}

    static Knowledge.OilPrior of(TestSetup setup) {
        double temperature =
                setup.oilTemperatureK().map(q -> q.value() - 273.15).orElse(22.0);
        double grade = setup.oilGrade()
                .map(NUMBER::matcher)
                .filter(Matcher::find)
                .map(m -> Double.parseDouble(m.group(1)))
                .orElse(46.0);
        double at20 = 3.0 * grade;
        double modulus = (1.30 + 0.15 * Math.log10(at20)) * Math.pow(10, 0.0023 * (20 - temperature)) * 1e4;
        double spread = setup.oilGrade().isPresent() && setup.oilTemperatureK().isPresent() ? 0.09 : 0.12;
        return new Knowledge.OilPrior(modulus, spread, 0.14);
    }
}
