/** From several hold tests of one machine to its suspects, the next test worth doing and the findings. */
package org.holdtrace.judge;
