package org.holdtrace.session;

import java.time.DateTimeException;
import java.time.LocalDate;

/**
 * Reads ISO 8601 instants straight from a buffer: {@code 2026-03-01T08:00:00.123456789Z}, with an offset such as
 * {@code +02:00} instead of the Z, or with neither, which is then UTC as the column says. Between date and time stands a T
 * or one space; seconds may be left out; up to nine decimals of a second, behind a point or a comma.
 */
final class InstantCell {
    private static final int SECONDS_A_DAY = 86_400;

    private long epochSecond;
    private int nano;
    private int lastDate = -1;
    private long lastEpochDay;

    private char[] text;
    private int at;
    private int end;

    /** Seconds since 1970 of the last instant read. */
    long epochSecond() {
        return epochSecond;
    }

    /** Nanoseconds above {@link #epochSecond()}. */
    int nano() {
        return nano;
    }

    /** Reads {@code cell[from … to-1]}; false where there is no instant. */
    boolean read(char[] cell, int from, int to) {
        text = cell;
        at = from;
        end = to;
        int year = digits(4);
        int month = take('-') ? digits(2) : -1;
        int day = take('-') ? digits(2) : -1;
        boolean parted = take('T') || take('t') || take(' ');
        int hour = digits(2);
        int minute = take(':') ? digits(2) : -1;
        int second = take(':') ? digits(2) : 0;
        nano = fraction();
        int offset = offset();
        boolean whole = parted && at == end && year >= 0 && month >= 0 && day >= 0 && nano >= 0;
        if (!whole || hour < 0 || hour > 23 || minute < 0 || minute > 59 || second < 0 || second > 59) {
            return false;
        }
        if (offset == Integer.MIN_VALUE || !date(year, month, day)) {
            return false;
        }
        epochSecond = lastEpochDay * SECONDS_A_DAY + hour * 3600L + minute * 60L + second - offset;
        return true;
    }

    /** The calendar is asked once a day, not once a sample. */
    private boolean date(int year, int month, int day) {
        int date = (year * 100 + month) * 100 + day;
        if (date != lastDate) {
            try {
                lastEpochDay = LocalDate.of(year, month, day).toEpochDay();
            } catch (DateTimeException e) {
                return false;
            }
            lastDate = date;
        }
        return true;
    }

    private boolean take(char wanted) {
        if (at < end && text[at] == wanted) {
            at++;
            return true;
        }
        return false;
    }

    private int digits(int count) {
        int value = 0;
        for (int i = 0; i < count; i++, at++) {
            if (at >= end || text[at] < '0' || text[at] > '9') {
                return -1;
            }
            value = value * 10 + (text[at] - '0');
        }
        return value;
    }

    /** Nanoseconds, -1 where a mark has no digits or more than nine behind it. */
    private int fraction() {
        if (!take('.') && !take(',')) {
            return 0;
        }
        int value = 0;
        int count = 0;
        for (; at < end && text[at] >= '0' && text[at] <= '9'; at++, count++) {
            value = count < 9 ? value * 10 + (text[at] - '0') : value;
        }
        for (int i = count; i < 9; i++) {
            value *= 10;
        }
        return count >= 1 && count <= 9 ? value : -1;
    }

    /** Seconds east of UTC, {@code Integer.MIN_VALUE} where it cannot be read. */
    private int offset() {
        if (at == end || take('Z') || take('z')) {
            return 0;
        }
        int sign = take('+') ? 1 : take('-') ? -1 : 0;
        int hours = digits(2);
        boolean colon = take(':');
        int minutes = at == end && !colon ? 0 : digits(2);
        boolean valid = sign != 0 && hours >= 0 && hours <= 18 && minutes >= 0 && minutes <= 59;
        return valid ? sign * (hours * 3600 + minutes * 60) : Integer.MIN_VALUE;
    }
}
