package vestibule.samples;

import java.time.OffsetDateTime;
import java.util.List;
import java.util.Set;

/**
 * A sample photograph and what it truly shows.
 *
 * @param id names the photograph in the catalogue
 * @param view the trade's name of the view
 * @param capture direct, or through a mirror and from where
 * @param exifOrientation the Exif Orientation in the file, 1 to 8
 * @param portrait whether the picture stands upright when it is put right
 * @param teeth ISO 3950 numbers the view is about; empty where it is about none in particular
 * @param words what can be read in the picture besides the side letters; empty for nothing
 * @param taken when the picture was taken
 * @param finalOrientation Patient Orientation of the picture put right: upright and unmirrored
 * @param traits what is special about the file
 * @param note what there is to know about it
 */
public record SamplePhoto(
        String id,
        SamplePatient patient,
        String view,
        Capture capture,
        int exifOrientation,
        boolean portrait,
        List<Integer> teeth,
        String words,
        OffsetDateTime taken,
        String finalOrientation,
        Set<Trait> traits,
        String note) {

    /** What is special about a file. */
    public enum Trait {
        /** The camera does not write the offset of its clock. */
        NO_OFFSET,
        /** Little-endian Exif; the others are big-endian. */
        LITTLE_ENDIAN,
        /** Taken with the pocket camera instead of the one with the macro lens. */
        POCKET_CAMERA,
        /** Says whose camera it is and where on earth it was. */
        OWNER_AND_PLACE,
        /** Carries a thumbnail in its Exif. */
        THUMBNAIL,
        /** Carries another picture behind the end of the image. */
        TRAILER,
        /** Starts with a JFIF segment. */
        JFIF,
        /** Carries a comment segment. */
        COMMENT,
        /** Carries a colour profile. */
        PROFILE,
        /** Colour at half resolution along the rows only. */
        SAMPLING_422,
        /** Colour at full resolution. */
        SAMPLING_444,
        /** A progressive stream. */
        PROGRESSIVE,
        /** One component, no colour. */
        GREY
    }

    public SamplePhoto {
        teeth = List.copyOf(teeth);
        traits = Set.copyOf(traits);
    }

    /**
     * Patient Orientation of the samples as the file stores them, before Exif Orientation and before any mirror is
     * put right.
     */
    public String storedOrientation() {
        return Raster.stored(this).toString();
    }

    /** Columns of the file at a size. */
    public int storedWidth(PhotoSize size) {
        return Raster.turned(this) ? size.height() : size.width();
    }

    /** Rows of the file at a size. */
    public int storedHeight(PhotoSize size) {
        return Raster.turned(this) ? size.width() : size.height();
    }
}
