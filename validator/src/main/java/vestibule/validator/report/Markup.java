package vestibule.validator.report;

/** Text made fit for XML 1.0 and HTML. */
final class Markup {

    private Markup() {}

    /** The text with the five special characters as references, and characters that XML does not have as a replacement character. */
    static String escape(String text) {
        StringBuilder safe = new StringBuilder(text.length());
        text.codePoints().forEach(c -> {
            switch (c) {
                case '&' -> safe.append("&amp;");
                case '<' -> safe.append("&lt;");
                case '>' -> safe.append("&gt;");
                case '"' -> safe.append("&quot;");
                case '\'' -> safe.append("&#39;");
                default -> safe.appendCodePoint(isCharacter(c) ? c : 0xFFFD);
            }
        });
        return safe.toString();
    }

    private static boolean isCharacter(int c) {
        boolean layout = c == '\t' || c == '\n' || c == '\r';
        return layout || (c >= 0x20 && c <= 0xD7FF) || (c >= 0xE000 && c <= 0xFFFD) || c >= 0x10000;
    }
}
