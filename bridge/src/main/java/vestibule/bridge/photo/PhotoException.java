package vestibule.bridge.photo;

import java.util.Locale;
import vestibule.dicom.jpeg.JpegFormatException;

/** A photograph that cannot become an object as it is; the message says what was found and what was expected. */
public final class PhotoException extends Exception {

    private static final long serialVersionUID = 1L;

    /** @param sentence what was found and what was expected */
    public PhotoException(String sentence) {
        super(sentence);
    }

    /** The same finding as a part of the sentence that names the file: no capital, no full stop. */
    static PhotoException of(JpegFormatException wrong) {
        String sentence = String.valueOf(wrong.getMessage());
        String start = sentence.substring(0, 1).toLowerCase(Locale.ROOT);
        return new PhotoException(start + sentence.substring(1).replaceAll("\\.$", ""));
    }
}
