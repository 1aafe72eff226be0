package vestibule.validator;

import java.util.List;
import java.util.Locale;

/** What is to be thought of one object; there is no other answer. */
public enum Verdict {
    /** Nothing above a note was found. */
    PASS,
    /** Warnings, but no error. */
    WARN,
    /** At least one error. */
    FAIL,
    /** The file could not be read as a DICOM object, so nothing was checked. */
    UNREADABLE;

    /** The verdict that follows from findings. */
    public static Verdict of(List<Finding> findings) {
        if (findings.stream().anyMatch(finding -> finding.severity() == Severity.ERROR)) {
            return FAIL;
        }
        return findings.stream().anyMatch(finding -> finding.severity() == Severity.WARNING) ? WARN : PASS;
    }

    /** The word that reports use: {@code pass}, {@code warn}, {@code fail}, {@code unreadable}. */
    public String word() {
        return name().toLowerCase(Locale.ROOT);
    }
}
