/** From a hold test to a leak rate with its interval: the three routes, the joint fit, the budget, the verdict. */
package org.holdtrace.estimate;
