/** How results are said to people: numbers with as many digits as they deserve, units, and the words of the trade. */
package org.holdtrace.wording;
