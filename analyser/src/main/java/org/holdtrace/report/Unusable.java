package org.holdtrace.report;

import java.util.Optional;

/**
 * An input that gave nothing, so that nobody takes its silence for a good result.
 *
 * @param name without its folder
 * @param sha256 SHA-256 of its content, hexadecimal; empty where it could not be read through
 * @param reason why, as a sentence without full stop
 */
public record Unusable(String name, Optional<String> sha256, String reason) {}
