/**
 * A simulated test line with hand pump, hand and transducer, whose leak is known. It is richer than what the analyser
 * assumes, so that agreement means something; {@code docs/simulator.md} describes its model.
 */
package org.holdtrace.rig;
