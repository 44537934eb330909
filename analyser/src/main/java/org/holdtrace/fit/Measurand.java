package org.holdtrace.fit;

/** A measurement function y = f(x₁, x₂, …). The array belongs to the caller: read it, do not keep or change it. */
@FunctionalInterface
public interface Measurand {
    /** The output for these inputs. */
    double value(double[] inputs);
}
