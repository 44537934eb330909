package org.holdtrace.command;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.holdtrace.quantity.NearMatch;

/**
 * The words after a command's name, sorted into options and operands.
 *
 * <p>Written by hand because a general argument library costs more start-up time than the rest of an analysis (see
 * docs/decisions/0001-own-argument-parser.md).
 */
final class Arguments {
    private final Map<String, String> options;
    private final List<String> operands;

    private Arguments(Map<String, String> options, List<String> operands) {
        this.options = options;
        this.operands = operands;
    }

    /**
     * Sorts {@code words} by what {@code known} allows. {@code --name value} and {@code --name=value} mean the same;
     * everything after a lone {@code --} is an operand.
     *
     * @throws UsageException on an unknown option (with the nearest known one), a missing or superfluous value, or an
     *     option given twice
     */
    static Arguments parse(List<String> words, List<Option> known) throws UsageException {
        Map<String, String> options = new HashMap<>();
        List<String> operands = new ArrayList<>();
        boolean onlyOperands = false;
        for (int i = 0; i < words.size(); i++) {
            String word = words.get(i);
            if (onlyOperands || !word.startsWith("-") || word.equals("-")) {
                operands.add(word);
                continue;
            }
            if (word.equals("--")) {
                onlyOperands = true;
                continue;
            }
            int equals = word.indexOf('=');
            String name = equals < 0 ? word : word.substring(0, equals);
            Option option = find(name, known);
            String value = equals < 0 ? null : word.substring(equals + 1);
            if (option.takesValue()) {
                if (value == null) {
                    if (i + 1 == words.size()) {
                        throw new UsageException(name + " needs a value: " + name + " " + option.valueName());
                    }
                    value = words.get(++i);
                }
                if (value.isEmpty()) {
                    throw new UsageException(name + " was given an empty value; expected " + option.valueName());
                }
            } else if (value != null) {
                throw new UsageException(name + " takes no value, was given \"" + value + "\"");
            } else {
                value = "";
            }
            if (options.put(name, value) != null) {
                throw new UsageException(name + " was given twice");
            }
        }
        return new Arguments(options, List.copyOf(operands));
    }

    private static Option find(String name, List<Option> known) throws UsageException {
        List<String> names = new ArrayList<>();
        for (Option option : known) {
            if (option.name().equals(name)) {
                return option;
            }
            names.add(option.name());
        }
        throw new UsageException("unknown option " + name + meant(name, names));
    }

    /** {@code "; did you mean X?"}, or nothing where no known word is near. */
    static String meant(String word, List<String> known) {
        return NearMatch.of(word, known)
                .map(near -> "; did you mean " + near + "?")
                .orElse("");
    }

    /** The value of option {@code name}, or null where it was not given. */
    String value(String name) {
        return options.get(name);
    }

    /** The value of option {@code name}. */
    String required(String name) throws UsageException {
        String value = options.get(name);
        if (value == null) {
            throw new UsageException(name + " is missing");
        }
        return value;
    }

    /** Whether switch {@code name} was given. */
    boolean has(String name) {
        return options.containsKey(name);
    }

    /** What is not an option, in order. */
    List<String> operands() {
        return operands;
    }
}
