/** Hydraulic oil: density, viscosity, stiffness, heat; and the air in it. */
package org.holdtrace.fluid;
