/** The instructor's screen: one or two lines in figures a class can read from the back, live, replayed or simulated. */
package org.holdtrace.desk.classroom;
