/** The analyst's views: the trace from near and afar, cursors, boundaries that can be moved. */
package org.holdtrace.desk.view;
