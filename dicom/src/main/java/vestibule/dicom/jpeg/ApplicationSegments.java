package vestibule.dicom.jpeg;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;

/** Tells application segments apart by the identifier they begin with, and keeps the few that are asked for later. */
final class ApplicationSegments {
    private static final int LONGEST_IDENTIFIER = 40;
    private static final int MOST_EXIF = 4;
    private static final byte[] JFIF = ascii("JFIF\0");
    private static final byte[] JFIF_EXTENSION = ascii("JFXX\0");
    private static final byte[] EXIF = ascii("Exif\0");
    private static final byte[] XMP = ascii("http://ns.adobe.com/xap/1.0/\0");
    private static final byte[] EXTENDED_XMP = ascii("http://ns.adobe.com/xmp/extension/\0");
    private static final byte[] ICC_PROFILE = ascii("ICC_PROFILE\0");
    private static final byte[] MULTI_PICTURE = ascii("MPF\0");
    private static final byte[] IMAGE_RESOURCES = ascii("Photoshop 3.0\0");
    private static final byte[] ADOBE = ascii("Adobe");
    private static final int ADOBE_LENGTH = 12;
    private static final int JFIF_LENGTH = 14;

    private final StreamReader reader;
    private final ProfileChunks profile = new ProfileChunks();
    private final List<Adobe> adobe = new ArrayList<>();
    private final List<byte[]> exif = new ArrayList<>();

    ApplicationSegments(StreamReader reader) {
        this.reader = reader;
    }

    ProfileChunks profile() {
        return profile;
    }

    List<Adobe> adobe() {
        return adobe;
    }

    /** The first few, for a camera writes one. */
    List<byte[]> exif() {
        return exif;
    }

    /** Names the segment whose payload is given; empty when it is what it says but too short to be used. */
    Optional<SegmentKind> identify(int marker, ByteRange payload) throws IOException {
        byte[] start = reader.bytes(payload.offset(), (int) Math.min(LONGEST_IDENTIFIER, payload.length()));
        return switch (marker) {
            case Marker.APP0 -> Optional.of(identifyApp0(start, payload.length()));
            case Marker.APP1 -> Optional.of(identifyApp1(start, payload));
            case Marker.APP2 -> identifyApp2(start, payload);
            case Marker.APP13 ->
                Optional.of(
                        begins(start, IMAGE_RESOURCES) ? SegmentKind.IMAGE_RESOURCES : SegmentKind.OTHER_APPLICATION);
            case Marker.APP14 -> identifyApp14(start);
            default -> Optional.of(SegmentKind.OTHER_APPLICATION);
        };
    }

    private static SegmentKind identifyApp0(byte[] start, long length) {
        if (begins(start, JFIF) && length >= JFIF_LENGTH) {
            return SegmentKind.JFIF;
        }
        return begins(start, JFIF_EXTENSION) ? SegmentKind.JFIF_EXTENSION : SegmentKind.OTHER_APPLICATION;
    }

    private SegmentKind identifyApp1(byte[] start, ByteRange payload) throws IOException {
        if (begins(start, EXIF)) {
            if (exif.size() < MOST_EXIF) {
                exif.add(reader.bytes(payload.offset(), (int) payload.length()));
            }
            return SegmentKind.EXIF;
        }
        if (begins(start, XMP)) {
            return SegmentKind.XMP;
        }
        return begins(start, EXTENDED_XMP) ? SegmentKind.EXTENDED_XMP : SegmentKind.OTHER_APPLICATION;
    }

    private Optional<SegmentKind> identifyApp2(byte[] start, ByteRange payload) {
        if (begins(start, ICC_PROFILE)) {
            if (start.length < ProfileChunks.HEADER_LENGTH) {
                return Optional.empty();
            }
            ByteRange data = new ByteRange(
                    payload.offset() + ProfileChunks.HEADER_LENGTH, payload.length() - ProfileChunks.HEADER_LENGTH);
            profile.add(new ProfileChunks.Chunk(start[12] & 0xFF, start[13] & 0xFF, data));
            return Optional.of(SegmentKind.ICC_PROFILE);
        }
        return Optional.of(begins(start, MULTI_PICTURE) ? SegmentKind.MULTI_PICTURE : SegmentKind.OTHER_APPLICATION);
    }

    private Optional<SegmentKind> identifyApp14(byte[] start) {
        if (!begins(start, ADOBE)) {
            return Optional.of(SegmentKind.OTHER_APPLICATION);
        }
        if (start.length < ADOBE_LENGTH) {
            return Optional.empty();
        }
        adobe.add(new Adobe((start[5] & 0xFF) << 8 | (start[6] & 0xFF), start[11] & 0xFF));
        return Optional.of(SegmentKind.ADOBE);
    }

    private static boolean begins(byte[] payload, byte[] identifier) {
        return payload.length >= identifier.length
                && Arrays.equals(payload, 0, identifier.length, identifier, 0, identifier.length);
    }

    private static byte[] ascii(String text) {
        return text.getBytes(StandardCharsets.US_ASCII);
    }
}
