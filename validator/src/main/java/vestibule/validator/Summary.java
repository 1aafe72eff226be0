package vestibule.validator;

/**
 * How many objects got which verdict.
 *
 * @param pass nothing above a note
 * @param warn warnings
 * @param fail errors
 * @param unreadable not checked
 */
public record Summary(int pass, int warn, int fail, int unreadable) {

    /** Nothing judged yet. */
    public static final Summary NONE = new Summary(0, 0, 0, 0);

    /** With one object more. */
    public Summary with(Verdict verdict) {
        return switch (verdict) {
            case PASS -> new Summary(pass + 1, warn, fail, unreadable);
            case WARN -> new Summary(pass, warn + 1, fail, unreadable);
            case FAIL -> new Summary(pass, warn, fail + 1, unreadable);
            case UNREADABLE -> new Summary(pass, warn, fail, unreadable + 1);
        };
    }

    /** How many objects in all. */
    public int objects() {
        return pass + warn + fail + unreadable;
    }

    /** The counts in one line. */
    public String sentence() {
        return "%d %s: %d pass, %d warn, %d fail, %d unreadable"
                .formatted(objects(), objects() == 1 ? "object" : "objects", pass, warn, fail, unreadable);
    }
}
