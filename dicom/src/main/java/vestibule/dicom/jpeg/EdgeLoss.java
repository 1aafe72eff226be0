package vestibule.dicom.jpeg;

/**
 * Pixels that a lossless turn leaves off at the edges of the source.
 *
 * @param columns how many columns at the right edge
 * @param rows how many rows at the bottom edge
 */
public record EdgeLoss(int columns, int rows) {
    /** Whether every pixel stays. */
    public boolean isNone() {
        return columns == 0 && rows == 0;
    }

    /** The loss in words, such as {@code 8 columns at the right edge}. */
    public String words() {
        if (isNone()) {
            return "nothing";
        }
        String right = columns + (columns == 1 ? " column" : " columns") + " at the right edge";
        String bottom = rows + (rows == 1 ? " row" : " rows") + " at the bottom edge";
        if (rows == 0) {
            return right;
        }
        return columns == 0 ? bottom : right + " and " + bottom;
    }

    /** The smallest width that is a whole number of blocks in every component. */
    static int columnsOfWholeBlocks(Frame frame) {
        int width = 1;
        for (Component component : frame.components()) {
            width = leastCommonMultiple(width, wholeBlocks(frame.maxHorizontal(), component.horizontal()));
        }
        return width;
    }

    /** The smallest height that is a whole number of blocks in every component. */
    static int rowsOfWholeBlocks(Frame frame) {
        int height = 1;
        for (Component component : frame.components()) {
            height = leastCommonMultiple(height, wholeBlocks(frame.maxVertical(), component.vertical()));
        }
        return height;
    }

    /** The smallest n for which {@code n * factor / largest} is a multiple of 8. */
    private static int wholeBlocks(int largest, int factor) {
        int unit = 8 * largest;
        return unit / greatestCommonDivisor(unit, factor);
    }

    private static int leastCommonMultiple(int first, int second) {
        return first / greatestCommonDivisor(first, second) * second;
    }

    private static int greatestCommonDivisor(int first, int second) {
        return second == 0 ? first : greatestCommonDivisor(second, first % second);
    }
}
