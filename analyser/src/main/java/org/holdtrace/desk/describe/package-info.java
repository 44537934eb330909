/** Describing a test: the form for its setup, and where its trapped volume comes from. */
package org.holdtrace.desk.describe;
