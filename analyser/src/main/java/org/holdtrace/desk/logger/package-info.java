/** Loggers in the desk: which one, and fetching what is on it. */
package org.holdtrace.desk.logger;
