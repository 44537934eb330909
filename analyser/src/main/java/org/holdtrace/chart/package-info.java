/**
 * Pictures of a hold test: the trace and its phases, the fit, the leak against pressure, the routes side by side.
 * Made to be read in grey print, by the colour-blind and from the back of a room: no meaning rests on colour alone.
 */
package org.holdtrace.chart;
