package vestibule.validator;

import java.util.Locale;

/** How much a finding matters. */
public enum Severity {
    /** A "shall" of the standard, or of the house rules, is broken. */
    ERROR,
    /** Allowed, but it will cause trouble somewhere. */
    WARNING,
    /** Worth knowing; nothing is wrong. */
    NOTE;

    /** The word that reports use: {@code error}, {@code warning}, {@code note}. */
    public String word() {
        return name().toLowerCase(Locale.ROOT);
    }
}
