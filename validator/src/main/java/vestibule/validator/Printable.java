package vestibule.validator;

/** Foreign text made fit for one line of a report. */
public final class Printable {

    private static final int LONGEST = 1000;

    private Printable() {}

    /** The text without control characters and other characters that change how a line is shown, cut where it is very long. */
    public static String of(String text) {
        StringBuilder line = new StringBuilder();
        text.codePoints().limit(LONGEST).forEach(c -> {
            if (isUnsafe(c)) {
                line.append("\\u%04X".formatted(c));
            } else {
                line.appendCodePoint(c);
            }
        });
        return text.codePointCount(0, text.length()) > LONGEST ? line + "…" : line.toString();
    }

    private static boolean isUnsafe(int c) {
        int type = Character.getType(c);
        return Character.isISOControl(c)
                || type == Character.FORMAT
                || type == Character.LINE_SEPARATOR
                || type == Character.PARAGRAPH_SEPARATOR
                || type == Character.SURROGATE
                || type == Character.UNASSIGNED;
    }
}
