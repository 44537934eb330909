/** Sessions on disk: writing them so that nothing is lost, and mending what a power cut left. */
package org.holdtrace.record;
