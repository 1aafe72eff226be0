package vestibule.dicom.jpeg;

/**
 * How much of a foreign JPEG stream is read before it is refused; every bound is checked before memory is taken.
 *
 * @param maxFileBytes longest file in bytes; the default 512 MiB is several times the largest still a camera writes
 * @param maxSegments most marker segments; the default 20,000 lets a 512 MiB file be all full segments, and more
 *     would only be a way to fill memory with descriptions of them
 * @param maxScans most scans; the default 200 is twice what the finest useful progression needs, while each scan may
 *     cost a decoder a pass over the whole picture
 * @param maxComponents most components of a frame; the default 4 covers every colour coding there is a rule for
 * @param maxPixels most pixels (lines times samples per line); the default 2<sup>28</sup> holds a 200-megapixel
 *     telephone picture, and stops the pictures of four gigapixels that are only a header
 * @param maxProfileBytes longest ICC profile put together in memory; the default 4 MiB is above any camera or display
 *     profile, while 255 chunks could carry 16 MiB
 * @param maxCoefficientBytes most memory for the coefficients of one picture, two bytes each; the default 192 MiB holds
 *     32 megapixels in 4:4:4 or 64 megapixels in 4:2:0
 */
public record JpegLimits(
        long maxFileBytes,
        int maxSegments,
        int maxScans,
        int maxComponents,
        long maxPixels,
        int maxProfileBytes,
        long maxCoefficientBytes) {

    /** The limits to use unless there is a reason. */
    public static final JpegLimits DEFAULT = new JpegLimits(512L << 20, 20_000, 200, 4, 1L << 28, 4 << 20, 192L << 20);

    /** Checks that every bound is above zero; anything else is a mistake of the program. */
    public JpegLimits {
        if (maxFileBytes < 1
                || maxSegments < 1
                || maxScans < 1
                || maxComponents < 1
                || maxPixels < 1
                || maxProfileBytes < 1
                || maxCoefficientBytes < 1) {
            throw new IllegalArgumentException("every limit must be above zero");
        }
    }

    /** These limits with another bound on pixels. */
    public JpegLimits withMaxPixels(long pixels) {
        return new JpegLimits(
                maxFileBytes, maxSegments, maxScans, maxComponents, pixels, maxProfileBytes, maxCoefficientBytes);
    }

    /** These limits with another bound on the file's length in bytes. */
    public JpegLimits withMaxFileBytes(long bytes) {
        return new JpegLimits(
                bytes, maxSegments, maxScans, maxComponents, maxPixels, maxProfileBytes, maxCoefficientBytes);
    }

    /** These limits with another bound on segments. */
    public JpegLimits withMaxSegments(int segments) {
        return new JpegLimits(
                maxFileBytes, segments, maxScans, maxComponents, maxPixels, maxProfileBytes, maxCoefficientBytes);
    }

    /** These limits with another bound on scans. */
    public JpegLimits withMaxScans(int scans) {
        return new JpegLimits(
                maxFileBytes, maxSegments, scans, maxComponents, maxPixels, maxProfileBytes, maxCoefficientBytes);
    }

    /** These limits with another bound on the memory for coefficients. */
    public JpegLimits withMaxCoefficientBytes(long bytes) {
        return new JpegLimits(maxFileBytes, maxSegments, maxScans, maxComponents, maxPixels, maxProfileBytes, bytes);
    }
}
