package org.holdtrace.judge;

import java.util.Optional;
import java.util.OptionalDouble;
import org.holdtrace.quantity.Require;

/**
 * A part oil can leak through.
 *
 * @param name its name in the case, unique
 * @param kind what it is
 * @param from a node; for a line one of the two it joins; for a valve the one it holds the pressure of
 * @param to the other node
 * @param limit what it may leak
 * @param prior probability that it is over its limit before complaint and tests, within 0..1
 * @param priorStated whether the case file states that, or it is the kind's usual one
 * @param settingPa opening pressure of a relief or load-holding valve, Pa
 * @param canBeBlanked whether it can be taken out and its cavity plugged, or be changed for a sound one, for a test
 * @param seen what looking at it showed, where that was done
 */
public record Element(
        String name,
        ElementKind kind,
        String from,
        String to,
        Limit limit,
        double prior,
        boolean priorStated,
        OptionalDouble settingPa,
        boolean canBeBlanked,
        Optional<Seen> seen) {
    public Element {
        Require.within(prior, 0, 1, "prior of " + name, "");
    }

    /** What looking shows of an element that leaks to the outside. */
    public enum Seen {
        /** Wiped, loaded, and dry. */
        DRY("dry"),
        /** Oil comes out. */
        WET("wet");

        private final String label;

        Seen(String label) {
            this.label = label;
        }

        /** The word used in case files. */
        public String label() {
            return label;
        }
    }

    /** By its name, which is unique in a case: sets of elements are looked up all the time. */
    @Override
    public int hashCode() {
        return name.hashCode();
    }

    /** The same with another prior. */
    public Element withPrior(double other) {
        return new Element(name, kind, from, to, limit, other, priorStated, settingPa, canBeBlanked, seen);
    }

    /** Whether it is a line, which joins its nodes unless a test has it off. */
    public boolean isLine() {
        return kind == ElementKind.LINE;
    }
}
