package vestibule.validator;

import java.util.regex.Pattern;

/**
 * Where a requirement stands.
 *
 * @param part the part of the standard, as {@code PS3.3}; {@code House} for the rules of the practice
 * @param section its section, as {@code C.7.6.1}, with the table after a comma where one is meant: {@code 8.8, Table 8.8-1}
 */
public record Citation(String part, String section) {

    /** The edition of the standard that every citation refers to. */
    public static final String EDITION = "2024c";

    private static final Pattern FORM = Pattern.compile("PS3\\.[0-9]{1,2} [A-Z0-9]+(?:\\.[A-Z0-9]+)*"
            + "(?:, Table [A-Z0-9]+(?:\\.[A-Z0-9]+)*(?:-[0-9]+[a-z]?)?)?|House [a-z ]+");

    /**
     * Reads {@code PS3.3 C.7.6.1} or {@code PS3.3 C.7.6.1, Table 10-7}, or {@code House words}.
     *
     * @throws IllegalArgumentException if the text has another form
     */
    public static Citation of(String text) {
        if (!FORM.matcher(text).matches()) {
            throw new IllegalArgumentException("citation " + text);
        }
        int blank = text.indexOf(' ');
        return new Citation(text.substring(0, blank), text.substring(blank + 1));
    }

    @Override
    public String toString() {
        return part + " " + section;
    }
}
