package org.holdtrace.report;

import java.awt.Graphics2D;
import java.util.function.Consumer;

/**
 * A drawing in a report.
 *
 * @param name no other drawing of the report has it
 * @param width in its own units
 * @param height in its own units
 * @param share of the width of the text that it takes, above 0 and at most 1
 * @param words what it shows, for those who cannot see it
 * @param drawing draws it, top left corner at the origin
 */
record Picture(String name, int width, int height, double share, String words, Consumer<Graphics2D> drawing) {}
