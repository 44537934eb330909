/**
 * Numerics that know nothing of oil: least squares, uncertainty by the GUM and its supplements, information criteria,
 * distributions. Own kernels where speed or start-up time is measured to matter, and only those that the program itself
 * uses; Apache Commons Math is the cross-check in the tests.
 */
package org.holdtrace.fit;
