package org.holdtrace.judge;

import java.util.Optional;
import java.util.OptionalDouble;

/** Invented piston seals, as often worn as not. */
final class Seals {
    private Seals() {}

    /** One that may leak {@code limitM3PerS}. */
    static Element seal(String name, double limitM3PerS) {
        return new Element(
                name,
                ElementKind.PISTON_SEAL,
                "n",
                Node.TANK,
                new Limit(limitM3PerS, OptionalDouble.empty(), OptionalDouble.empty(), Limit.Basis.MAKER, ""),
                0.5,
                true,
                OptionalDouble.empty(),
                false,
                Optional.empty());
    }
}
