/** The logger's end of the link: serial or TCP, one protocol. */
package org.holdtrace.serve;
