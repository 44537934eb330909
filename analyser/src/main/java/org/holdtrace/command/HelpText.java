package org.holdtrace.command;

import java.util.List;

/** The text {@code --help} prints; at most 100 columns wide. */
final class HelpText {
    private static final int OPTION_COLUMN = 22;
    private static final String CALL = "java -jar analyser.jar ";
    private static final List<String> EXIT_CODES = List.of(
            "Exit codes:",
            "  0  done",
            "  1  done, but at least one input was refused or gave no answer; each is named on the error stream",
            "  2  the call was wrong; nothing was done");

    private HelpText() {}

    /** The help of the program: what it is for and its commands. */
    static String overview(List<Command> commands) {
        StringBuilder text = new StringBuilder();
        line(text, "Holdtrace: from a recorded hold test of a hydraulic component to a leak rate with its interval.");
        line(text, "");
        line(text, "Usage: " + CALL + "COMMAND …");
        line(text, "");
        line(text, "Commands:");
        for (Command command : commands) {
            line(text, pad("  " + command.name(), OPTION_COLUMN) + command.summary());
        }
        line(text, "");
        line(text, "COMMAND --help says more about each; --version prints the version.");
        line(text, "");
        end(text);
        return text.toString();
    }

    /** The help of one command. */
    static String of(Command command) {
        StringBuilder text = new StringBuilder();
        line(text, command.name() + ": " + command.summary());
        line(text, "");
        line(text, "Usage: " + CALL + command.name() + " " + command.synopsis());
        line(text, "");
        for (String paragraph : command.description()) {
            line(text, paragraph);
        }
        line(text, "");
        line(text, "Options:");
        for (Option option : command.options()) {
            option(text, option);
        }
        option(text, Option.flag("--help", "print this and do nothing else"));
        line(text, "");
        end(text);
        return text.toString();
    }

    private static void option(StringBuilder text, Option option) {
        String head = "  " + option.name() + (option.takesValue() ? " " + option.valueName() : "");
        for (String help : option.help()) {
            line(text, pad(head, OPTION_COLUMN) + help);
            head = "";
        }
    }

    private static void end(StringBuilder text) {
        for (String code : EXIT_CODES) {
            line(text, code);
        }
    }

    private static String pad(String text, int width) {
        return text.length() >= width ? text + " " : text + " ".repeat(width - text.length());
    }

    private static void line(StringBuilder text, String line) {
        text.append(line).append(System.lineSeparator());
    }
}
