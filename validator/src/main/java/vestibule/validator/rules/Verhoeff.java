package vestibule.validator.rules;

/** The check digit of SNOMED CT identifiers: Verhoeff's dihedral scheme, worked out from its group of ten. */
final class Verhoeff {

    private static final int[] STEP = {1, 5, 7, 6, 2, 8, 3, 0, 9, 4};

    private Verhoeff() {}

    /** Whether the last of these digits checks the others. */
    static boolean holds(String digits) {
        int check = 0;
        for (int i = 0; i < digits.length(); i++) {
            int digit = digits.charAt(digits.length() - 1 - i) - '0';
            check = product(check, permuted(digit, i % 8));
        }
        return check == 0;
    }

    private static int permuted(int digit, int times) {
        int result = digit;
        for (int i = 0; i < times; i++) {
            result = STEP[result];
        }
        return result;
    }

    /** In the symmetries of a pentagon, 0 to 4 are turns and 5 to 9 are turns after a reflection. */
    private static int product(int left, int right) {
        boolean mirrored = left >= 5;
        int turn = mirrored ? left - 5 - right % 5 + 5 : left + right % 5;
        boolean reflected = mirrored != (right >= 5);
        return turn % 5 + (reflected ? 5 : 0);
    }
}
