package org.holdtrace.desk.work;

import org.holdtrace.library.WorkNotes;
import org.holdtrace.session.SetupSheet;

/**
 * All that a person may change about a recording; its samples are not among it. Immutable.
 *
 * @param sheet the setup as it is written
 * @param notes boundaries that were moved, parts of the trapped volume
 */
public record Described(SetupSheet sheet, WorkNotes notes) {}
