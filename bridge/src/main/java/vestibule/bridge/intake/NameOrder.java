package vestibule.bridge.intake;

/** The order in which a camera numbered its files, by their names. */
public final class NameOrder {

    private NameOrder() {}

    /** Runs of digits count as numbers, so that IMG_9 comes before IMG_10. */
    public static int compare(String one, String other) {
        int left = 0;
        int right = 0;
        while (left < one.length() && right < other.length()) {
            int leftEnd = runEnd(one, left);
            int rightEnd = runEnd(other, right);
            int order = isDigit(one.charAt(left)) && isDigit(other.charAt(right))
                    ? compareNumbers(one.substring(left, leftEnd), other.substring(right, rightEnd))
                    : one.substring(left, leftEnd).compareTo(other.substring(right, rightEnd));
            if (order != 0) {
                return order;
            }
            left = leftEnd;
            right = rightEnd;
        }
        return left == one.length() && right == other.length()
                ? one.compareTo(other)
                : Boolean.compare(left < one.length(), right < other.length());
    }

    private static boolean isDigit(char letter) {
        return letter >= '0' && letter <= '9';
    }

    /** Where a run of digits, or of anything else, ends. */
    private static int runEnd(String name, int from) {
        int end = from + 1;
        while (end < name.length() && isDigit(name.charAt(end)) == isDigit(name.charAt(from))) {
            end++;
        }
        return end;
    }

    /** Numbers of any length. */
    private static int compareNumbers(String one, String other) {
        String left = withoutZeros(one);
        String right = withoutZeros(other);
        return left.length() == right.length() ? left.compareTo(right) : Integer.compare(left.length(), right.length());
    }

    private static String withoutZeros(String digits) {
        int from = 0;
        while (from < digits.length() - 1 && digits.charAt(from) == '0') {
            from++;
        }
        return digits.substring(from);
    }
}
