/** Converters: reading raw counts from the hardware, calibration, and what is wrong with an input. The only user of Pi4J beside the panel. */
package org.holdtrace.adc;
