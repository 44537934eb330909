/** What is recorded and what is known of a test: setup, calibration, raw counts, events; readers and writers. */
package org.holdtrace.session;
