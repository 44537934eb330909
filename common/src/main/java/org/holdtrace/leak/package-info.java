/** Leak laws: how leak flow depends on pressure. */
package org.holdtrace.leak;
