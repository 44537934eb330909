/** Several hold tests over one another: before and after a repair, one port and the next. */
package org.holdtrace.desk.compare;
