/** The button, the lamps and the beeper. */
package org.holdtrace.panel;
