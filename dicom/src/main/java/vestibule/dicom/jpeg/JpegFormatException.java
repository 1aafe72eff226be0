package vestibule.dicom.jpeg;

import java.io.IOException;

/** Says in one sentence where a byte stream stops being a JPEG stream, what was found there and what was expected. */
public final class JpegFormatException extends IOException {
    private static final long serialVersionUID = 1L;

    private final long offset;

    JpegFormatException(long offset, String finding) {
        super("At byte " + offset + " of the JPEG stream " + finding);
        this.offset = offset;
    }

    /** The byte offset from the start of the stream at which the finding begins. */
    public long offset() {
        return offset;
    }
}
