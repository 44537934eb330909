package org.holdtrace.fit;

/** What is to be known, as a function of the quantities it follows from (GUM 4.1.1). */
public interface Measurand {
    /** Its value at these inputs, which it may not change. */
    double value(double[] inputs);
}
