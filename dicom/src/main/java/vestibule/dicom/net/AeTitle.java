package vestibule.dicom.net;

import java.util.Optional;

/**
 * An application entity title (PS3.5 6.2, AE; PS3.8 9.3.2): 1 to 16 printable characters of the default repertoire without backslash;
 * leading and trailing spaces do not count.
 *
 * @param value the characters, without leading and trailing spaces
 */
public record AeTitle(String value) {

    private static final int LONGEST = 16;

    /** @throws IllegalArgumentException if the text is no title; foreign text goes through {@link #parse} */
    public AeTitle {
        value = value.strip();
        if (!isWellFormed(value)) {
            throw new IllegalArgumentException(
                    "an AE title has 1 to 16 printable ASCII characters and no backslash; this one has "
                            + value.length() + " characters");
        }
    }

    /** The title that the text is, if it is one. */
    public static Optional<AeTitle> parse(String text) {
        return isWellFormed(text.strip()) ? Optional.of(new AeTitle(text)) : Optional.empty();
    }

    private static boolean isWellFormed(String text) {
        return !text.isEmpty()
                && text.length() <= LONGEST
                && text.chars().allMatch(c -> c >= ' ' && c <= '~' && c != '\\');
    }

    @Override
    public String toString() {
        return value;
    }
}
