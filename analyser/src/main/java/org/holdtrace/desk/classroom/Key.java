package org.holdtrace.desk.classroom;

/**
 * Something that can be pressed.
 *
 * @param stroke as {@link javax.swing.KeyStroke#getKeyStroke(String)} understands it
 * @param shown the name on the key
 * @param words what it does, in a word or two; nothing where the key before it says so
 * @param action what it does
 */
record Key(String stroke, String shown, String words, Runnable action) {}
