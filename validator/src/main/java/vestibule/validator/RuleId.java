package vestibule.validator;

import java.util.Comparator;

/**
 * The name of a rule, as {@code MOD-003}. It stays with its rule for ever and is never given to another.
 *
 * @param family what the rule is about
 * @param number its number in the family, 1 to 999
 */
public record RuleId(Family family, int number) implements Comparable<RuleId> {

    /** What rules are about. */
    public enum Family {
        /** The form of a Part 10 file. */
        FIL("File"),
        /** The encoding of elements and values. */
        VAL("Values and encoding"),
        /** The modules of the object definition. */
        MOD("Object definition"),
        /** Coded entries. */
        COD("Codes"),
        /** The compressed stream against the attributes. */
        JPG("Pixels and their stream"),
        /** What makes sense for a clinical photograph. */
        PHO("Photograph sense"),
        /** What should not leave the practice. */
        PRV("Privacy"),
        /** Objects compared with one another. */
        BAT("Batch");

        private final String title;

        Family(String title) {
            this.title = title;
        }

        /** What the family is called. */
        public String title() {
            return title;
        }
    }

    private static final Comparator<RuleId> ORDER =
            Comparator.comparing(RuleId::family).thenComparingInt(RuleId::number);

    public RuleId {
        if (number < 1 || number > 999) {
            throw new IllegalArgumentException("rule number " + number);
        }
    }

    /**
     * Reads {@code MOD-003}.
     *
     * @throws IllegalArgumentException if the text has another form or the family does not exist
     */
    public static RuleId parse(String text) {
        if (!text.matches("[A-Z]{3}-[0-9]{3}")) {
            throw new IllegalArgumentException("rule id " + text);
        }
        return new RuleId(Family.valueOf(text.substring(0, 3)), Integer.parseInt(text.substring(4)));
    }

    @Override
    public int compareTo(RuleId other) {
        return ORDER.compare(this, other);
    }

    @Override
    public String toString() {
        return "%s-%03d".formatted(family, number);
    }
}
