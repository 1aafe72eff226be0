package vestibule.dicom.data;

import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * How many values an attribute may have (PS3.6 6, column VM).
 *
 * @param least the fewest values, at least 1
 * @param most the most values, {@link Integer#MAX_VALUE} where there is no end
 * @param step the number of values comes in multiples of this, as the 2 of {@code 2-2n}
 */
public record Multiplicity(int least, int most, int step) {

    /** Exactly one value. */
    public static final Multiplicity ONE = new Multiplicity(1, 1, 1);

    private static final Pattern FORM = Pattern.compile("([1-9][0-9]?)(?:-(?:([1-9][0-9]?)|([1-9]?)n))?");

    /**
     * Reads the form that PS3.6 prints: {@code 1}, {@code 1-3}, {@code 1-n}, {@code 2-2n}.
     *
     * @throws IllegalArgumentException if the text is no such form, for tables are ours
     */
    public static Multiplicity parse(String text) {
        Matcher form = FORM.matcher(text);
        if (!form.matches()) {
            throw new IllegalArgumentException("value multiplicity " + text);
        }
        int least = Integer.parseInt(form.group(1));
        if (form.group(3) != null) {
            int step = form.group(3).isEmpty() ? 1 : Integer.parseInt(form.group(3));
            return new Multiplicity(least, Integer.MAX_VALUE, step);
        }
        int most = form.group(2) == null ? least : Integer.parseInt(form.group(2));
        return new Multiplicity(least, most, 1);
    }

    /** Whether that many values are allowed; no value at all is a question of the attribute's type, not of this. */
    public boolean allows(int count) {
        return count >= least && count <= most && count % step == 0;
    }

    @Override
    public String toString() {
        if (least == most) {
            return Integer.toString(least);
        }
        return least + "-" + (most != Integer.MAX_VALUE ? Integer.toString(most) : step == 1 ? "n" : step + "n");
    }
}
