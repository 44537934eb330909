package org.holdtrace.library;

import org.holdtrace.trace.Boundary;

/**
 * A boundary that somebody moved.
 *
 * @param holdTest number of the hold test, 1 for the first
 * @param boundary which
 * @param foundS where it was found, s
 * @param toS where it was moved to, s
 */
public record MovedBoundary(int holdTest, Boundary boundary, double foundS, double toS) {}
