/** Benchmarks, built with the profile {@code benchmark} only; see docs/benchmarks.md. */
package org.holdtrace.benchmark;
