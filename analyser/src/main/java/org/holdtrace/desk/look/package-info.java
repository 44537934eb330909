/** How the desk looks: colours for light and dark, type that scales, and how a phase is told without colour. */
package org.holdtrace.desk.look;
