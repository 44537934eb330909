/** Reaching a logger: addresses, serial ports, copies of its sessions. */
package org.holdtrace.remote;
