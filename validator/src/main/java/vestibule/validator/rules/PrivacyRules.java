package vestibule.validator.rules;

import java.io.IOException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.jpeg.Jpeg;
import vestibule.dicom.jpeg.Segment;
import vestibule.dicom.jpeg.SegmentKind;
import vestibule.validator.Findings;
import vestibule.validator.Location;
import vestibule.validator.Rule;
import vestibule.validator.Severity;

/** What a camera or a program left in the stream beside the picture, and nobody sees in a viewer. */
final class PrivacyRules {

    private static final String CITATION = "House privacy";
    private static final int MOST_AFTER_END = 1 << 20;
    private static final String ADVICE =
            "Take the segments that no decoder needs out of the stream, and build the object again.";

    private static final Rule POSITION = Rule.of(
            "PRV-001",
            Severity.ERROR,
            CITATION,
            "The stream does not say where the photograph was taken.",
            "the Exif data in the stream states a place",
            ADVICE);
    private static final Rule PERSON = Rule.of(
            "PRV-002",
            Severity.ERROR,
            CITATION,
            "The stream names no person and no serial number.",
            "the Exif data in the stream has {tags}",
            ADVICE);
    private static final Rule MAKER_NOTE = Rule.of(
            "PRV-003",
            Severity.WARNING,
            CITATION,
            "The stream has no maker note, whose contents only the maker knows.",
            "the Exif data in the stream has a maker note",
            ADVICE);
    private static final Rule THUMBNAIL = Rule.of(
            "PRV-004",
            Severity.ERROR,
            CITATION,
            "The stream has no thumbnail, which may show what was cut off or blackened.",
            "the stream has a thumbnail in {place}",
            ADVICE);
    private static final Rule COMMENT = Rule.of(
            "PRV-005",
            Severity.WARNING,
            CITATION,
            "The stream has no comments.",
            "the stream has {count} comment segments",
            ADVICE);
    private static final Rule SECOND_PICTURE = Rule.of(
            "PRV-006", Severity.ERROR, CITATION, "The stream holds one picture.", "the stream has {what}", ADVICE);
    private static final Rule METADATA = Rule.of(
            "PRV-007",
            Severity.WARNING,
            CITATION,
            "The stream has no metadata of other kinds.",
            "the stream has {what}",
            ADVICE);
    private static final Rule CAMERA_DATA = Rule.of(
            "PRV-008",
            Severity.NOTE,
            CITATION,
            "What the camera recorded stands in attributes, not in the stream.",
            "the stream still has its Exif data",
            ADVICE);

    private static final Map<Integer, String> PERSONAL = personal();

    private final Jpeg jpeg;
    private final OpenStream stream;
    private final Findings findings;

    PrivacyRules(Jpeg jpeg, OpenStream stream, Findings findings) {
        this.jpeg = jpeg;
        this.stream = stream;
        this.findings = findings;
    }

    /** Exif 2.3 tags, and those that a desktop system adds. */
    private static Map<Integer, String> personal() {
        Map<Integer, String> tags = new LinkedHashMap<>();
        tags.put(0x010E, "a description");
        tags.put(0x013B, "an artist");
        tags.put(0x8298, "a copyright holder");
        tags.put(0x9286, "a comment of the user");
        tags.put(0x9C9B, "a title");
        tags.put(0x9C9C, "a comment");
        tags.put(0x9C9D, "an author");
        tags.put(0x9C9E, "keywords");
        tags.put(0x9C9F, "a subject");
        tags.put(0xA420, "a unique image number");
        tags.put(0xA430, "an owner of the camera");
        tags.put(0xA431, "a serial number of the camera");
        tags.put(0xA435, "a serial number of the lens");
        return tags;
    }

    static List<Rule> all() {
        return List.of(POSITION, PERSON, MAKER_NOTE, THUMBNAIL, COMMENT, SECOND_PICTURE, METADATA, CAMERA_DATA);
    }

    void check() throws IOException {
        Location where = Location.of(Attributes.PIXEL_DATA);
        List<ExifBlock> exif = ExifBlock.all(jpeg, stream);
        if (!exif.isEmpty()) {
            findings.report(CAMERA_DATA, where);
            checkExif(exif, where);
        }
        if (jpeg.has(SegmentKind.JFIF_EXTENSION)) {
            findings.report(THUMBNAIL, where, "place", "a JFIF extension");
        } else if (hasJfifThumbnail()) {
            findings.report(THUMBNAIL, where, "place", "its JFIF segment");
        }
        if (jpeg.has(SegmentKind.COMMENT)) {
            findings.report(COMMENT, where, "count", Integer.toString(jpeg.count(SegmentKind.COMMENT)));
        }
        if (jpeg.has(SegmentKind.MULTI_PICTURE)) {
            findings.report(SECOND_PICTURE, where, "what", "an index of further pictures (MPF)");
        }
        checkAfterEnd(where);
        checkOther(where);
    }

    private void checkExif(List<ExifBlock> exif, Location where) {
        if (exif.stream().anyMatch(ExifBlock::hasPosition)) {
            findings.report(POSITION, where);
        }
        List<String> personal = new ArrayList<>();
        PERSONAL.forEach((tag, words) -> {
            if (exif.stream().anyMatch(block -> block.has(tag))) {
                personal.add(words);
            }
        });
        if (!personal.isEmpty()) {
            findings.report(PERSON, where, "tags", String.join(", ", personal));
        }
        if (exif.stream().anyMatch(block -> block.has(0x927C))) {
            findings.report(MAKER_NOTE, where);
        }
        if (exif.stream().anyMatch(ExifBlock::hasThumbnail)) {
            findings.report(THUMBNAIL, where, "place", "its Exif data");
        }
    }

    /** The last two bytes of the segment's fixed part are the size of a thumbnail (JFIF 1.02). */
    private boolean hasJfifThumbnail() throws IOException {
        for (Segment segment : jpeg.segments()) {
            if (segment.kind() == SegmentKind.JFIF && segment.length() >= 18) {
                byte[] size = stream.bytes(segment.offset() + 16, 2);
                if (size[0] != 0 && size[1] != 0) {
                    return true;
                }
            }
        }
        return false;
    }

    /** Some telephones write a second picture after the first, and reused cards leave pieces of others there. */
    private void checkAfterEnd(Location where) throws IOException {
        long after = jpeg.trailingBytes();
        if (after < 4) {
            return;
        }
        byte[] rest = stream.bytes(jpeg.end(), (int) Math.min(after, MOST_AFTER_END));
        for (int i = 0; i + 2 < rest.length; i++) {
            if (rest[i] == (byte) 0xFF && rest[i + 1] == (byte) 0xD8 && rest[i + 2] == (byte) 0xFF) {
                findings.report(SECOND_PICTURE, where, "what", "the start of another picture after its end");
                return;
            }
        }
    }

    private void checkOther(Location where) {
        Map<SegmentKind, String> kinds = new LinkedHashMap<>();
        kinds.put(SegmentKind.XMP, "an XMP packet");
        kinds.put(SegmentKind.EXTENDED_XMP, "an extended XMP packet");
        kinds.put(SegmentKind.IMAGE_RESOURCES, "image resources with IPTC data");
        kinds.put(SegmentKind.OTHER_APPLICATION, "application segments of unknown content");
        kinds.forEach((kind, words) -> {
            if (jpeg.has(kind)) {
                findings.report(METADATA, where, "what", words);
            }
        });
    }
}
