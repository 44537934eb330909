/** The report a customer gets: one page of XHTML built from typed content, written as PDF or as it is. */
package org.holdtrace.report;
