package vestibule.bridge.view;

import java.util.Optional;

/** Stages of treatment: a few words, as {@code before} or {@code implant seated}; common practice, no source names a list. */
public final class Stage {

    private Stage() {}

    /** The words, if they can be a stage: letters, digits, commas, hyphens and blanks, at most 40, so that programs can read them back. */
    public static Optional<String> parse(String text) {
        String words = text.strip();
        return words.matches("[\\p{L}\\p{N}][\\p{L}\\p{N},' -]{0,39}") ? Optional.of(words) : Optional.empty();
    }
}
