package vestibule.bridge.object;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.List;
import vestibule.bridge.photo.Picture;
import vestibule.dicom.data.Bulk;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Element;
import vestibule.dicom.data.VR;
import vestibule.dicom.data.Value;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.io.TransferSyntax;

/**
 * Image Pixel (PS3.3 C.7.6.3, C.8.12.1.1), the lossy history (C.7.6.1.1.5) and ICC Profile (C.11.15): the picture, and what it says of
 * itself.
 */
final class PixelModules {

    private PixelModules() {}

    static void put(DataSet.Builder object, Picture picture) {
        int samples = picture.form().samples();
        object.put(Attributes.SAMPLES_PER_PIXEL, samples);
        object.put(Attributes.PHOTOMETRIC_INTERPRETATION, photometric(picture.form()));
        if (samples == 3) {
            object.put(Attributes.PLANAR_CONFIGURATION, 0);
        }
        object.put(Attributes.ROWS, picture.rows());
        object.put(Attributes.COLUMNS, picture.columns());
        object.put(Attributes.BITS_ALLOCATED, 8);
        object.put(Attributes.BITS_STORED, 8);
        object.put(Attributes.HIGH_BIT, 7);
        object.put(Attributes.PIXEL_REPRESENTATION, 0);
        // Once lossy, always lossy, also unpacked (PS3.3 C.7.6.1.1.5)
        object.put(Attributes.LOSSY_IMAGE_COMPRESSION, "01");
        object.put(Attributes.LOSSY_IMAGE_COMPRESSION_RATIO, ratio(picture));
        object.put(Attributes.LOSSY_IMAGE_COMPRESSION_METHOD, "ISO_10918_1");
        picture.colors().profile().ifPresent(profile -> object.put(Attributes.ICC_PROFILE, Bulk.of(profile)));
        object.putIfKnown(Attributes.COLOR_SPACE, picture.colors().colorSpace());
        object.put(new Element(Attributes.PIXEL_DATA.tag(), VR.OB, value(picture)));
    }

    static TransferSyntax transferSyntax(Picture picture) {
        return picture.form() == Picture.Form.RGB
                ? TransferSyntax.EXPLICIT_VR_LITTLE_ENDIAN
                : TransferSyntax.JPEG_BASELINE;
    }

    private static Value value(Picture picture) {
        return picture.form() == Picture.Form.RGB
                ? new Value.Binary(picture.stream())
                : new Value.Fragments(List.of(), List.of(picture.stream()));
    }

    /** Colour is YBR_FULL_422 whatever the chroma sampling of the stream is (PS3.3 C.7.6.3.1.2, note). */
    private static String photometric(Picture.Form form) {
        return switch (form) {
            case JPEG_COLOR -> "YBR_FULL_422";
            case JPEG_GREY -> "MONOCHROME2";
            case RGB -> "RGB";
        };
    }

    /** Unpacked size over the size of the lossy stream (PS3.3 C.7.6.1.1.5.2). */
    private static String ratio(Picture picture) {
        long unpacked =
                (long) picture.rows() * picture.columns() * picture.form().samples();
        return BigDecimal.valueOf(unpacked)
                .divide(BigDecimal.valueOf(picture.lossyLength()), new MathContext(4))
                .stripTrailingZeros()
                .toPlainString();
    }
}
