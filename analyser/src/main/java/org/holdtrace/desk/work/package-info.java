/** What the desk works on: the recordings that are open, bringing more in, and what is kept from one day to the next. */
package org.holdtrace.desk.work;
