package vestibule.dicom.io;

/**
 * How much a foreign file or message may ask of us. A length that is only declared never allocates anything; these bound what is
 * really there.
 *
 * @param depth how deep sequences may nest; real objects stay below ten
 * @param elements how many data elements in all, those in items included; a long report has some ten thousands
 * @param valueBytes the longest value that is held in memory, in bytes; longer ones of binary kind stay in the file
 * @param inflatedBytes how many bytes a deflated data set may grow to in memory
 * @param fragments how many fragments encapsulated pixel data may have
 */
public record Limits(int depth, int elements, int valueBytes, int inflatedBytes, int fragments) {

    /** For files and messages of unknown origin. */
    public static final Limits DEFAULT = new Limits(64, 200_000, 4 << 20, 64 << 20, 100_000);

    /** Binary values up to this many bytes are held in memory, so that small ones can be compared. */
    static final int SMALL_BINARY = 1 << 16;

    public Limits {
        if (depth < 1 || elements < 1 || valueBytes < 1024 || inflatedBytes < 1024 || fragments < 1) {
            throw new IllegalArgumentException("limits below what the smallest object needs");
        }
    }
}
