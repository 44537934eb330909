package org.holdtrace.estimate;

import java.util.Optional;
import org.holdtrace.quantity.Dimension;
import org.holdtrace.quantity.Quantity;
import org.holdtrace.quantity.QuantityParser;
import org.holdtrace.quantity.Unit;
import org.holdtrace.session.TestSetup;

/** What is known of a test, put together a field at a time in the units and the wording of a setup file. */
final class Known {
    private Optional<String> kind = Optional.empty();
    private Optional<String> grade = Optional.empty();
    private Optional<Quantity> temperature = Optional.empty();
    private Optional<Quantity> modulus = Optional.empty();
    private Optional<Quantity> air = Optional.empty();
    private Optional<Quantity> volume = Optional.empty();
    private Optional<Quantity> line = Optional.empty();
    private Optional<Quantity> stroke = Optional.empty();
    private Optional<Quantity> bled = Optional.empty();
    private Optional<Double> rangePa = Optional.empty();
    private Optional<Double> accuracy = Optional.empty();
    private Optional<Quantity> reference = Optional.empty();
    private Optional<Quantity> relief = Optional.empty();
    private Optional<Quantity> limit = Optional.empty();

    private static Optional<Quantity> of(String text, Dimension dimension) {
        return Optional.of(QuantityParser.parse(text, dimension));
    }

    Known kind(String text) {
        kind = Optional.of(text);
        return this;
    }

    Known grade(String text) {
        grade = Optional.of(text);
        return this;
    }

    Known temperature(String text) {
        temperature = of(text, Dimension.TEMPERATURE);
        return this;
    }

    Known modulus(String text) {
        modulus = of(text, Dimension.PRESSURE);
        return this;
    }

    Known air(String text) {
        air = of(text, Dimension.FRACTION);
        return this;
    }

    Known volume(String text) {
        volume = of(text, Dimension.VOLUME);
        return this;
    }

    Known line(String text) {
        line = of(text, Dimension.COMPLIANCE);
        return this;
    }

    Known stroke(String text) {
        stroke = of(text, Dimension.VOLUME);
        return this;
    }

    Known bled(String text) {
        bled = of(text, Dimension.VOLUME);
        return this;
    }

    /** A transducer from zero to {@code bar}, good to {@code percent} of that. */
    Known transducer(double bar, double percent) {
        rangePa = Optional.of(Unit.BAR.toSi(bar));
        accuracy = Optional.of(percent / 100);
        return this;
    }

    Known reference(String text) {
        reference = of(text, Dimension.PRESSURE);
        return this;
    }

    Known relief(String text) {
        relief = of(text, Dimension.PRESSURE);
        return this;
    }

    Known limit(String text) {
        limit = of(text, Dimension.FLOW);
        return this;
    }

    TestSetup setup() {
        return new TestSetup(
                Optional.empty(),
                Optional.empty(),
                kind,
                Optional.empty(),
                grade,
                temperature,
                modulus,
                air,
                volume,
                line,
                stroke,
                bled,
                rangePa.map(any -> 0.0),
                rangePa,
                accuracy,
                reference,
                relief,
                limit);
    }
}
