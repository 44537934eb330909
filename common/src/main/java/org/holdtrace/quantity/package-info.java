/** Values with uncertainty, and units at the edges; SI inside. */
package org.holdtrace.quantity;
