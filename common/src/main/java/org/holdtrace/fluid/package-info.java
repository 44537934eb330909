/**
 * Hydraulic oil: density, viscosity, stiffness, heat; and the air in it.
 *
 * <p>Properties are computed with {@link StrictMath}: simulated sessions must come out the same to the last bit on every
 * machine.
 */
package org.holdtrace.fluid;
