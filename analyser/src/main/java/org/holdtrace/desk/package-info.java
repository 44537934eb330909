/** The desk: the window of the analyst, its menus and what holds its views together. */
package org.holdtrace.desk;
