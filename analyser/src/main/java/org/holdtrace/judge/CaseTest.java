package org.holdtrace.judge;

import java.util.List;
import java.util.OptionalDouble;

/**
 * A hold test as it was made on the machine.
 *
 * @param name what it is called in the findings
 * @param file session or trace, relative to the case file
 * @param number which hold test in that file, from 1
 * @param pressurised the node the test line is screwed to; its own lines are off unless they lead to a joined node
 * @param joined nodes that stay joined to it by their lines
 * @param open nodes open to the air
 * @param blocked nodes shut off and full of oil
 * @param blanked elements taken out and plugged, or changed for sound ones, for this test
 * @param rodOutM how far the rod was out, m
 */
public record CaseTest(
        String name,
        String file,
        int number,
        String pressurised,
        List<String> joined,
        List<String> open,
        List<String> blocked,
        List<String> blanked,
        OptionalDouble rodOutM) {
    public CaseTest {
        joined = List.copyOf(joined);
        open = List.copyOf(open);
        blocked = List.copyOf(blocked);
        blanked = List.copyOf(blanked);
    }
}
