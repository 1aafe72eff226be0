package vestibule.dicom.jpeg;

/** A run of bytes of the source: from {@code offset}, {@code length} bytes long. */
public record ByteRange(long offset, long length) {
    /** Checks that neither part is negative; anything else is a mistake of the program. */
    public ByteRange {
        if (offset < 0 || length < 0) {
            throw new IllegalArgumentException("a byte range begins at " + offset + " with length " + length);
        }
    }

    /** Offset of the first byte after the range. */
    public long end() {
        return offset + length;
    }
}
