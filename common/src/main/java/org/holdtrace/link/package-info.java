/** The live link between a logger and an analyser: frames, messages and both ends' manners. See {@code docs/link.md}. */
package org.holdtrace.link;
