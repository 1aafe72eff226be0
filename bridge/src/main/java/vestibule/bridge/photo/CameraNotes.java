package vestibule.bridge.photo;

import com.drew.lang.ByteArrayReader;
import com.drew.metadata.Directory;
import com.drew.metadata.Metadata;
import com.drew.metadata.exif.ExifIFD0Directory;
import com.drew.metadata.exif.ExifReader;
import com.drew.metadata.exif.ExifSubIFDDirectory;
import java.util.Optional;
import vestibule.dicom.data.DataSet;

/**
 * What the camera noted about the shot in the Exif block of the file. Who owns the camera, where it was, its serial numbers, its own
 * notes and every text about the picture are not even taken out of it.
 *
 * @param maker Exif Make
 * @param model Exif Model
 * @param software Exif Software: the camera's firmware, or an editor
 * @param captured when the picture was taken
 * @param orientation how to turn the pixels upright, 1 to 8 (Exif Orientation); empty if not stated or beyond these
 * @param exposure attributes of the VL Photographic Acquisition and Equipment modules (PS3.3 C.8.12.10, C.8.12.11)
 * @param readable whether the block, if there is one, could be read
 */
public record CameraNotes(
        Optional<String> maker,
        Optional<String> model,
        Optional<String> software,
        Optional<CaptureTime> captured,
        Optional<Integer> orientation,
        DataSet exposure,
        boolean readable) {

    private static final int IDENTIFIER = 6;

    /** A camera that noted nothing. */
    public static final CameraNotes NONE = new CameraNotes(
            Optional.empty(),
            Optional.empty(),
            Optional.empty(),
            Optional.empty(),
            Optional.empty(),
            DataSet.EMPTY,
            true);

    /** Reads an Exif block, identifier included; what cannot be read is as if it were not there. */
    static CameraNotes read(Optional<byte[]> block) {
        if (block.isEmpty() || block.get().length <= IDENTIFIER) {
            return NONE;
        }
        Metadata metadata = new Metadata();
        boolean readable = extract(block.get(), metadata);
        ExifTags first = new ExifTags(metadata.getFirstDirectoryOfType(ExifIFD0Directory.class));
        ExifTags second = new ExifTags(metadata.getFirstDirectoryOfType(ExifSubIFDDirectory.class));
        return new CameraNotes(
                first.text(ExifIFD0Directory.TAG_MAKE),
                first.text(ExifIFD0Directory.TAG_MODEL),
                first.text(ExifIFD0Directory.TAG_SOFTWARE),
                second.text(ExifSubIFDDirectory.TAG_DATETIME_ORIGINAL)
                        .flatMap(moment -> CaptureTime.parse(
                                moment,
                                second.text(ExifSubIFDDirectory.TAG_SUBSECOND_TIME_ORIGINAL),
                                second.text(ExifSubIFDDirectory.TAG_TIME_ZONE_ORIGINAL))),
                first.number(ExifIFD0Directory.TAG_ORIENTATION)
                        .filter(value -> value >= 1 && value <= 8)
                        .map(Long::intValue),
                ExposureAttributes.of(first, second),
                readable);
    }

    /** A library reads foreign bytes here: whatever it throws means no more than that the block is broken. */
    private static boolean extract(byte[] block, Metadata metadata) {
        try {
            new ExifReader().extract(new ByteArrayReader(block), metadata, IDENTIFIER);
            for (Directory directory : metadata.getDirectories()) {
                if (directory.hasErrors()) {
                    return false;
                }
            }
            return true;
        } catch (RuntimeException brokenBlock) {
            return false;
        }
    }
}
