package org.holdtrace.serve;

import org.holdtrace.link.Status;
import org.holdtrace.session.SessionHeader;

/**
 * How the logger is doing, with what is needed to read its samples.
 *
 * @param status how it is doing; times are ns on the logger's steady clock
 * @param header what a session begun now would have at its head: channels, calibrations, plan;
 *     when it would begin is left out
 */
public record LoggerState(Status status, SessionHeader header) {}
