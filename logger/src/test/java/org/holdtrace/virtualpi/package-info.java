/** The shipped jars on an emulated Raspberry Pi: see {@code logger/src/virtual-pi}. */
package org.holdtrace.virtualpi;
