/** The test line: what it holds, how it swells, how the heat of compression leaves it. */
package org.holdtrace.line;
