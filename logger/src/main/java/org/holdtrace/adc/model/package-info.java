/** Converters as their data sheets describe them, register by register: behind the same drivers as the real ones. */
package org.holdtrace.adc.model;
