/** Recordings as files: finding and reading them, the setups beside them, and the way from one to its results. */
package org.holdtrace.library;
