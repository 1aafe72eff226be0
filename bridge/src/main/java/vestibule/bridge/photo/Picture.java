package vestibule.bridge.photo;

import vestibule.bridge.color.Colors;
import vestibule.dicom.data.Bulk;

/**
 * The picture of a photograph in the form an object carries. Its bytes lie in the photograph's file or in scratch, and must stay there
 * until the object is written.
 *
 * @param form how its samples are coded
 * @param rows how many rows it has
 * @param columns how many columns it has
 * @param stream its bytes: a JPEG stream without metadata, or samples pixel by pixel
 * @param lossyLength how many bytes the lossy coding of these pixels took
 * @param changes what was done to it
 * @param colors what its colours mean
 */
public record Picture(Form form, int rows, int columns, Bulk stream, long lossyLength, Changes changes, Colors colors) {

    /** How samples are coded. */
    public enum Form {
        /** JPEG Baseline of luminance and two colour differences. */
        JPEG_COLOR(3),
        /** JPEG Baseline of luminance. */
        JPEG_GREY(1),
        /** Red, green and blue, a byte each, not compressed. */
        RGB(3);

        private final int samples;

        Form(int samples) {
            this.samples = samples;
        }

        /** Samples of a pixel. */
        public int samples() {
            return samples;
        }
    }
}
