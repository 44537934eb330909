/** Samples, phases and strokes. */
package org.holdtrace.trace;
