/** The command line: arguments, exit codes, and results as text, JSON and files. Units are converted here only. */
package org.holdtrace.command;
