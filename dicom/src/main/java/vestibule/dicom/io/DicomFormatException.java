package vestibule.dicom.io;

import java.io.IOException;

/** Bytes from outside that are not what the standard says; the one exception for bad data in files and messages. */
public final class DicomFormatException extends IOException {

    private static final long serialVersionUID = 1L;

    /**
     * @param offset where, in bytes from the start of the file or message
     * @param found what stands there, never a value that could name a patient
     * @param expected what the standard asks for
     */
    public DicomFormatException(long offset, String found, String expected) {
        super("at byte %d: found %s, expected %s".formatted(offset, found, expected));
    }

    /** @param sentence what was found and what was expected, where no single byte is to blame */
    public DicomFormatException(String sentence) {
        super(sentence);
    }
}
