package vestibule.bridge.object;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.List;
import java.util.stream.Collectors;
import vestibule.bridge.photo.Photo;
import vestibule.bridge.photo.PhotoException;
import vestibule.dicom.data.Bulk;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Element;
import vestibule.dicom.data.VR;
import vestibule.dicom.data.Value;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.jpeg.ColorCoding;
import vestibule.dicom.jpeg.Essential;
import vestibule.dicom.jpeg.Fitness;
import vestibule.dicom.jpeg.Frame;
import vestibule.dicom.jpeg.Hindrance;

/**
 * Image Pixel (PS3.3 C.7.6.3, C.8.12.1.1) and the lossy history (C.7.6.1.1.5): the photograph's own stream, coefficient for
 * coefficient, without metadata and without anything after its end.
 *
 * @param frame what the stream says of itself
 * @param grey whether it has one component
 * @param stream the bytes, as ranges of the photo's file
 */
record PixelModules(Frame frame, boolean grey, Bulk stream) {

    static PixelModules of(PhotographicObject.Material material) throws PhotoException {
        Photo photo = material.photo();
        Fitness fitness = photo.jpeg().fitness();
        if (!fitness.fits()) {
            throw new PhotoException(
                    fitness.hindrances().stream().map(Hindrance::sentence).collect(Collectors.joining("; "))
                            + "; this photograph has to be put into that form without loss first");
        }
        if (photo.camera().orientation().orElse(1) != 1) {
            throw new PhotoException(
                    "the camera was turned (Exif Orientation %d), and an object shows its pixels as they are; this photograph has to be turned upright without loss first"
                            .formatted(photo.camera().orientation().orElse(1)));
        }
        if (material.placement().capture().byMirror()) {
            throw new PhotoException(
                    "a picture taken by mirror is laterally reversed; it has to be flipped without loss before it may stand beside radiographs");
        }
        boolean grey = photo.jpeg().color().coding() == ColorCoding.GREY;
        return new PixelModules(photo.jpeg().frame(), grey, stream(photo));
    }

    private static Bulk stream(Photo photo) {
        Essential essential = photo.jpeg().essential();
        return Bulk.concat(essential.ranges().stream()
                .map(range -> Bulk.of(photo.file(), range.offset(), range.length()))
                .toList());
    }

    void put(DataSet.Builder object) {
        int samples = grey ? 1 : 3;
        object.put(Attributes.SAMPLES_PER_PIXEL, samples);
        // Whatever the chroma sampling of the stream is (PS3.3 C.7.6.3.1.2, note)
        object.put(Attributes.PHOTOMETRIC_INTERPRETATION, grey ? "MONOCHROME2" : "YBR_FULL_422");
        if (!grey) {
            object.put(Attributes.PLANAR_CONFIGURATION, 0);
        }
        object.put(Attributes.ROWS, frame.lines());
        object.put(Attributes.COLUMNS, frame.samplesPerLine());
        object.put(Attributes.BITS_ALLOCATED, 8);
        object.put(Attributes.BITS_STORED, 8);
        object.put(Attributes.HIGH_BIT, 7);
        object.put(Attributes.PIXEL_REPRESENTATION, 0);
        object.put(Attributes.LOSSY_IMAGE_COMPRESSION, "01");
        object.put(Attributes.LOSSY_IMAGE_COMPRESSION_RATIO, ratio(samples));
        object.put(Attributes.LOSSY_IMAGE_COMPRESSION_METHOD, "ISO_10918_1");
        object.put(new Element(Attributes.PIXEL_DATA.tag(), VR.OB, new Value.Fragments(List.of(), List.of(stream))));
    }

    /** Unpacked size over the size of the stream (PS3.3 C.7.6.1.1.5.2). */
    private String ratio(int samples) {
        return BigDecimal.valueOf(frame.pixels() * samples)
                .divide(BigDecimal.valueOf(stream.length()), new MathContext(4))
                .stripTrailingZeros()
                .toPlainString();
    }
}
