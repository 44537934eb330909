/** The program: puts converter, panel, recording and link together. */
package org.holdtrace.firmware;
