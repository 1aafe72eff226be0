package vestibule.dicom.io;

import java.time.Duration;

/**
 * How much a foreign file or message may ask of us. A length that is only declared never allocates anything; these bound what is
 * really there.
 *
 * @param depth how deep sequences may nest; real objects stay below ten
 * @param elements how many data elements and items in all, at every depth; a long report has some ten thousands
 * @param valueBytes the longest value of text or numbers, in bytes; longer ones of binary kind stay in the file
 * @param heldBytes how many bytes all elements together may take in memory, decoded, and never more than twice what is read and 16 MB;
 *     binary values beyond it stay in the file
 * @param inflatedBytes how many bytes a deflated data set may grow to in memory
 * @param fragments how many fragments encapsulated pixel data may have
 * @param time how long the reading of one data set may take
 */
public record Limits(
        int depth, int elements, int valueBytes, int heldBytes, int inflatedBytes, int fragments, Duration time) {

    /** For files and messages of unknown origin; the worst of them are read within a heap of 256 MB. */
    public static final Limits DEFAULT =
            new Limits(64, 200_000, 4 << 20, 64 << 20, 32 << 20, 100_000, Duration.ofSeconds(60));

    /** Binary values up to this many bytes are held in memory, so that small ones can be compared. */
    static final int SMALL_BINARY = 1 << 16;

    public Limits {
        if (depth < 1
                || elements < 1
                || valueBytes < 1024
                || heldBytes < valueBytes
                || inflatedBytes < 1024
                || fragments < 1
                || time.isNegative()
                || time.isZero()) {
            throw new IllegalArgumentException("limits below what the smallest object needs");
        }
    }
}
