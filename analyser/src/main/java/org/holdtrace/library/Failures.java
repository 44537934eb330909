package org.holdtrace.library;

import java.io.IOException;
import java.nio.file.AccessDeniedException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.FileSystemException;
import java.nio.file.NoSuchFileException;
import org.holdtrace.session.InputException;

/** The one place where an exception becomes a sentence for a person. */
public final class Failures {
    private Failures() {}

    /**
     * What went wrong, as one sentence that begins with a file.
     *
     * @param asked what was being worked on; the sentence begins with it where the failure does not itself name a file
     */
    public static String sentence(String asked, Throwable failure) {
        if (failure instanceof InputException) {
            return failure.getMessage();
        }
        // A setup beside a recording, or what was to be written, may be what could not be had.
        String file =
                failure instanceof FileSystemException system && system.getFile() != null ? system.getFile() : asked;
        if (failure instanceof NoSuchFileException) {
            return file + ": there is no such file or folder";
        }
        if (failure instanceof AccessDeniedException) {
            return file + ": permission denied";
        }
        if (failure instanceof FileAlreadyExistsException) {
            return file + ": exists already";
        }
        if (failure instanceof FileSystemException system && system.getReason() != null) {
            return file + ": " + system.getReason();
        }
        if (failure instanceof IOException && failure.getMessage() != null) {
            return file + ": " + failure.getMessage();
        }
        return file + ": this should not happen, please report it: " + failure;
    }
}
