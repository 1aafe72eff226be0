package vestibule.bridge.photo;

import com.drew.lang.ByteArrayReader;
import com.drew.metadata.Metadata;
import com.drew.metadata.exif.ExifIFD0Directory;
import com.drew.metadata.exif.ExifInteropDirectory;
import com.drew.metadata.exif.ExifReader;
import com.drew.metadata.exif.ExifSubIFDDirectory;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Function;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.jpeg.Jpeg;

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
 * @param doubt why nobody can tell what was noted of the turn, as words without a full stop; then no turn is said to be noted
 */
public record CameraNotes(
        Optional<String> maker,
        Optional<String> model,
        Optional<String> software,
        Optional<CaptureTime> captured,
        Optional<Integer> orientation,
        Optional<String> colorSpace,
        DataSet exposure,
        Optional<String> doubt) {

    private static final int IDENTIFIER = 6;
    private static final String UNREADABLE = "What the file holds of Exif cannot be read";
    private static final String CONTRADICTORY =
            "The file holds several Exif blocks that note different turns (Exif Orientation)";
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
            Optional.empty());

    CameraNotes withClock(Duration correction) {
        return new CameraNotes(
                maker,
                model,
                software,
                captured.map(time -> time.plus(correction)),
                orientation,
                colorSpace,
                exposure,
                doubt);
    }

    /** Reads what a stream holds of Exif. */
    static CameraNotes of(Jpeg jpeg, Keep keep) {
        List<byte[]> blocks = jpeg.exifBlocks();
        return read(blocks, blocks.size() < jpeg.exifCount(), keep);
    }

    /** Reads Exif blocks, identifiers included, without any private note. */
    static CameraNotes read(byte[]... blocks) {
        return read(List.of(blocks), false, Keep.NOTHING);
    }

    /**
     * Reads Exif blocks, identifiers included. What they note of the turn has to be the same; of the rest the first one that says
     * anything counts.
     *
     * @param more whether there are more blocks, which nobody read
     */
    private static CameraNotes read(List<byte[]> blocks, boolean more, Keep keep) {
        List<Block> read = blocks.stream()
                .filter(block -> block.length > IDENTIFIER)
                .map(Block::of)
                .toList();
        Set<Integer> turns = new TreeSet<>();
        read.forEach(block -> turns.addAll(block.outline.orientations()));
        boolean readable = !more && read.stream().allMatch(Block::isReadable);
        Optional<String> doubt =
                readable ? Optional.of(CONTRADICTORY).filter(several -> turns.size() > 1) : Optional.of(UNREADABLE);
        Optional<ExifTags> named = named(read);
        return new CameraNotes(
                named.flatMap(first -> first.text(ExifIFD0Directory.TAG_MAKE)),
                named.flatMap(first -> first.text(ExifIFD0Directory.TAG_MODEL)),
                named.flatMap(first -> first.text(ExifIFD0Directory.TAG_SOFTWARE)),
                first(read, Block::captured),
                doubt.isPresent() ? Optional.empty() : turns.stream().findFirst(),
                first(read, block -> colorSpace(block.second(), block.metadata)),
                first(read, block -> Optional.of(block.exposure(keep)).filter(exposure -> !exposure.isEmpty()))
                        .orElse(DataSet.EMPTY),
                doubt);
    }

    /** The first directory of the first block that names a camera, else of the first. */
    private static Optional<ExifTags> named(List<Block> blocks) {
        return blocks.stream()
                .map(Block::first)
                .filter(first -> first.text(ExifIFD0Directory.TAG_MAKE).isPresent()
                        || first.text(ExifIFD0Directory.TAG_MODEL).isPresent())
                .findFirst()
                .or(() -> blocks.stream().map(Block::first).findFirst());
    }

    private static <T> Optional<T> first(List<Block> blocks, Function<Block, Optional<T>> what) {
        return blocks.stream().flatMap(block -> what.apply(block).stream()).findFirst();
    }

    /** One block, as the library reads it and as it is laid out. */
    private record Block(Metadata metadata, ExifOutline outline) {

        static Block of(byte[] bytes) {
            return new Block(extract(bytes), ExifOutline.of(bytes));
        }

        ExifTags first() {
            return new ExifTags(metadata.getFirstDirectoryOfType(ExifIFD0Directory.class));
        }

        ExifTags second() {
            return new ExifTags(metadata.getFirstDirectoryOfType(ExifSubIFDDirectory.class));
        }

        /** Whether its layout is sound, and the library made as much of it as stands there. */
        boolean isReadable() {
            return outline.isReadable()
                    && (!outline.namesCamera() || first().has(ExifIFD0Directory.TAG_MODEL))
                    && (!outline.tellsTime() || second().has(ExifSubIFDDirectory.TAG_DATETIME_ORIGINAL));
        }

        Optional<CaptureTime> captured() {
            ExifTags second = second();
            return second.text(ExifSubIFDDirectory.TAG_DATETIME_ORIGINAL)
                    .flatMap(moment -> CaptureTime.parse(
                            moment,
                            second.text(ExifSubIFDDirectory.TAG_SUBSECOND_TIME_ORIGINAL),
                            second.text(ExifSubIFDDirectory.TAG_TIME_ZONE_ORIGINAL)));
        }

        DataSet exposure(Keep keep) {
            return ExposureAttributes.of(first(), second()).toBuilder()
                    .putAll(PrivateNotes.of(metadata, keep))
                    .build();
        }
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

    /** A library reads foreign bytes here: what it read before it failed counts, and whether that is enough the outline tells. */
    private static Metadata extract(byte[] block) {
        Metadata metadata = new Metadata();
        try {
            new ExifReader().extract(new ByteArrayReader(block), metadata, IDENTIFIER);
        } catch (RuntimeException brokenBlock) {
            return metadata;
        }
        return metadata;
    }
}
