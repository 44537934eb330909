/** Sampling on absolute deadlines, and what can be told from the samples while they come. */
package org.holdtrace.acquire;
