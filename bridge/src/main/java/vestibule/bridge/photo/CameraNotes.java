package vestibule.bridge.photo;

import com.drew.lang.ByteArrayReader;
import com.drew.metadata.Directory;
import com.drew.metadata.Metadata;
import com.drew.metadata.exif.ExifIFD0Directory;
import com.drew.metadata.exif.ExifInteropDirectory;
import com.drew.metadata.exif.ExifReader;
import com.drew.metadata.exif.ExifSubIFDDirectory;
import java.time.Duration;
import java.util.Optional;
import vestibule.dicom.data.DataSet;

/**
 * What the camera noted about the shot in the Exif block of the file. Who owns the camera, where it was, its serial numbers and its own
 * notes are taken out of it only if a practice asks; texts about the picture never are.
 *
 * @param maker Exif Make
 * @param model Exif Model
 * @param software Exif Software: the camera's firmware, or an editor
 * @param captured when the picture was taken
 * @param orientation how to turn the pixels upright, 1 to 8 (Exif Orientation); empty if not stated or beyond these
 * @param colorSpace the colour space it noted, as Color Space (0028,2002) has it: SRGB or ADOBERGB; empty for any other
 * @param exposure attributes of the VL Photographic Acquisition and Equipment modules (PS3.3 C.8.12.10, C.8.12.11), and private notes
 *     that were asked for
 * @param readable whether the block, if there is one, could be read
 */
public record CameraNotes(
        Optional<String> maker,
        Optional<String> model,
        Optional<String> software,
        Optional<CaptureTime> captured,
        Optional<Integer> orientation,
        Optional<String> colorSpace,
        DataSet exposure,
        boolean readable) {

    private static final int IDENTIFIER = 6;
    private static final long SRGB = 1;
    private static final long UNCALIBRATED = 65535;

    /** A camera that noted nothing. */
    public static final CameraNotes NONE = new CameraNotes(
            Optional.empty(),
            Optional.empty(),
            Optional.empty(),
            Optional.empty(),
            Optional.empty(),
            Optional.empty(),
            DataSet.EMPTY,
            true);

    CameraNotes withClock(Duration correction) {
        return new CameraNotes(
                maker,
                model,
                software,
                captured.map(time -> time.plus(correction)),
                orientation,
                colorSpace,
                exposure,
                readable);
    }

    /** Reads an Exif block, identifier included, without any private note. */
    static CameraNotes read(Optional<byte[]> block) {
        return read(block, Keep.NOTHING);
    }

    /** Reads an Exif block, identifier included; what cannot be read is as if it were not there. */
    static CameraNotes read(Optional<byte[]> block, Keep keep) {
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
                colorSpace(second, metadata),
                ExposureAttributes.of(first, second).toBuilder()
                        .putAll(PrivateNotes.of(metadata, keep))
                        .build(),
                readable);
    }

    /** Exif ColorSpace 1 is sRGB; uncalibrated with the interoperability index R03 is Adobe RGB (Exif 2.3 4.6.5, DCF 2.0). */
    private static Optional<String> colorSpace(ExifTags second, Metadata metadata) {
        ExifTags interoperability = new ExifTags(metadata.getFirstDirectoryOfType(ExifInteropDirectory.class));
        long noted = second.number(ExifSubIFDDirectory.TAG_COLOR_SPACE).orElse(0L);
        boolean adobe =
                interoperability.text(ExifInteropDirectory.TAG_INTEROP_INDEX).equals(Optional.of("R03"));
        if (noted == SRGB) {
            return Optional.of("SRGB");
        }
        return noted == UNCALIBRATED && adobe ? Optional.of("ADOBERGB") : Optional.empty();
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
