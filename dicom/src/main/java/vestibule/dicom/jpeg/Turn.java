package vestibule.dicom.jpeg;

import java.util.Optional;

/**
 * The eight ways to lay a rectangle down again: turns by quarters, and mirror images of them. They form a group:
 * {@link #then} composes, {@link #inverse} takes back. Each is thought of as an optional exchange of rows and columns,
 * after which the columns and the rows of the outcome are reversed or not.
 */
public enum Turn {
    /** As it is. */
    NONE(false, false, false),
    /** Left and right exchanged. */
    FLIP_HORIZONTAL(false, true, false),
    /** Top and bottom exchanged. */
    FLIP_VERTICAL(false, false, true),
    /** A quarter turn clockwise. */
    ROTATE_90(true, true, false),
    /** Half a turn. */
    ROTATE_180(false, true, true),
    /** A quarter turn counterclockwise. */
    ROTATE_270(true, false, true),
    /** Mirrored across the diagonal from top left to bottom right. */
    TRANSPOSE(true, false, false),
    /** Mirrored across the diagonal from top right to bottom left. */
    TRANSVERSE(true, true, true);

    private static final int FIRST_EXIF_VALUE = 1;

    private final boolean exchangesAxes;
    private final boolean reversesColumns;
    private final boolean reversesRows;

    Turn(boolean exchangesAxes, boolean reversesColumns, boolean reversesRows) {
        this.exchangesAxes = exchangesAxes;
        this.reversesColumns = reversesColumns;
        this.reversesRows = reversesRows;
    }

    /** Whether width and height change places. */
    public boolean exchangesAxes() {
        return exchangesAxes;
    }

    /** Whether the columns of the outcome run backwards, after the axes were exchanged or not. */
    boolean reversesColumns() {
        return reversesColumns;
    }

    /** Whether the rows of the outcome run backwards, after the axes were exchanged or not. */
    boolean reversesRows() {
        return reversesRows;
    }

    /** Whether the outcome is a mirror image: one or three of exchange, columns and rows (odd parity). */
    public boolean mirrors() {
        return exchangesAxes ^ reversesColumns ^ reversesRows;
    }

    /** This turn and the next one after it, as one. */
    public Turn then(Turn next) {
        boolean columns = next.exchangesAxes ? reversesRows : reversesColumns;
        boolean rows = next.exchangesAxes ? reversesColumns : reversesRows;
        return of(exchangesAxes ^ next.exchangesAxes, columns ^ next.reversesColumns, rows ^ next.reversesRows);
    }

    /** The turn that takes this one back. */
    public Turn inverse() {
        return switch (this) {
            case ROTATE_90 -> ROTATE_270;
            case ROTATE_270 -> ROTATE_90;
            default -> this;
        };
    }

    /**
     * The turn that lays a picture upright whose Exif Orientation has this value (Exif 2.32, 4.6.4 A, tag 0112);
     * empty for values other than 1 to 8.
     */
    public static Optional<Turn> uprightFromExif(int orientation) {
        Turn[] byValue = {NONE, FLIP_HORIZONTAL, ROTATE_180, FLIP_VERTICAL, TRANSPOSE, ROTATE_90, TRANSVERSE, ROTATE_270
        };
        int index = orientation - FIRST_EXIF_VALUE;
        return index < 0 || index >= byValue.length ? Optional.empty() : Optional.of(byValue[index]);
    }

    /** What a lossless turn of this frame has to leave off, because a partial block cannot become a first one. */
    public EdgeLoss edgeLoss(Frame frame) {
        boolean sourceColumns = exchangesAxes ? reversesRows : reversesColumns;
        boolean sourceRows = exchangesAxes ? reversesColumns : reversesRows;
        int columns = sourceColumns ? frame.samplesPerLine() % EdgeLoss.columnsOfWholeBlocks(frame) : 0;
        int rows = sourceRows ? frame.lines() % EdgeLoss.rowsOfWholeBlocks(frame) : 0;
        return new EdgeLoss(columns, rows);
    }

    private static Turn of(boolean exchangesAxes, boolean reversesColumns, boolean reversesRows) {
        for (Turn turn : values()) {
            if (turn.exchangesAxes == exchangesAxes
                    && turn.reversesColumns == reversesColumns
                    && turn.reversesRows == reversesRows) {
                return turn;
            }
        }
        throw new IllegalStateException("the eight turns are not all there");
    }
}
