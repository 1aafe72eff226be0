package vestibule.dicom.jpeg;

/**
 * How a picture is to be coded again as baseline sequential, with the coefficients it has.
 *
 * @param turn how to lay it down
 * @param edge what to do where a turn would bring a partial block to the wrong edge
 * @param codes which Huffman tables to use
 * @param restarts whether the outcome has the source's restart interval
 */
public record Recoding(Turn turn, Edge edge, Codes codes, Restarts restarts) {
    /** What to do with partial blocks that a turn would bring to the left or the top. */
    public enum Edge {
        /** Refuse, with the number of rows and columns. */
        KEEP,
        /** Leave off as few rows and columns as will do, and say so. */
        TRIM
    }

    /** Where the Huffman tables come from. */
    public enum Codes {
        /**
         * The source's own where they have a code for everything, else {@link #OPTIMAL}. A progressive picture has none to
         * keep, for its codes mean something else; it gets {@link #STANDARD} ones, which need no second reading.
         */
        KEPT,
        /** The tables of T.81 Annex K.3. */
        STANDARD,
        /** The shortest for this picture (T.81 Annex K.2). */
        OPTIMAL
    }

    /** Whether the outcome has restart markers. */
    public enum Restarts {
        /** With the number of MCUs that the source's first scan has. */
        KEEP,
        /** None. */
        DROP
    }

    /** This turn with pixels kept, tables kept and no restart markers. */
    public static Recoding of(Turn turn) {
        return new Recoding(turn, Edge.KEEP, Codes.KEPT, Restarts.DROP);
    }

    /** The same with another policy for edges. */
    public Recoding with(Edge otherEdge) {
        return new Recoding(turn, otherEdge, codes, restarts);
    }

    /** The same with other Huffman tables. */
    public Recoding with(Codes otherCodes) {
        return new Recoding(turn, edge, otherCodes, restarts);
    }

    /** The same with another policy for restart markers. */
    public Recoding with(Restarts otherRestarts) {
        return new Recoding(turn, edge, codes, otherRestarts);
    }
}
