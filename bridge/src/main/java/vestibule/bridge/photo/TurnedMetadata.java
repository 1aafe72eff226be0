package vestibule.bridge.photo;

import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Metadata segments of a picture that was turned, changed only where they would no longer be true. Every one keeps its length, so that
 * what lies behind an offset stays there. A segment that cannot be read is left as it is.
 */
final class TurnedMetadata {

    private static final int EXIF_START = 10;
    private static final int ORIENTATION = 0x0112;
    private static final int EXIF_DIRECTORY = 0x8769;
    private static final int WIDTH = 0xA002;
    private static final int HEIGHT = 0xA003;
    private static final int SUBJECT_AREA = 0x9214;
    private static final int SUBJECT_LOCATION = 0xA214;
    private static final int THUMBNAIL_OFFSET = 0x0201;
    private static final int THUMBNAIL_LENGTH = 0x0202;
    private static final int SHORT = 3;
    private static final int LONG = 4;
    private static final int ENTRY = 12;

    /** {@code tiff:Orientation} as an attribute or an element. */
    private static final Pattern XMP_ORIENTATION = Pattern.compile("(Orientation(?:=[\"']|>))([2-8])(?=[\"'<])");

    private TurnedMetadata() {}

    /** JFIF: the densities change places with the axes, and a thumbnail of the picture as it was is emptied (T.871 10.1). */
    static byte[] jfif(byte[] segment, boolean exchangesAxes) {
        byte[] changed = segment.clone();
        if (exchangesAxes) {
            System.arraycopy(segment, 12, changed, 14, 2);
            System.arraycopy(segment, 14, changed, 12, 2);
        }
        for (int index = 18; index < changed.length; index++) {
            changed[index] = 0;
        }
        return changed;
    }

    /** XMP repeats the orientation of the file; it becomes 1 as well. */
    static byte[] xmp(byte[] segment) {
        String text = new String(segment, StandardCharsets.ISO_8859_1);
        Matcher matcher = XMP_ORIENTATION.matcher(text);
        return matcher.replaceAll("$11").getBytes(StandardCharsets.ISO_8859_1);
    }

    /**
     * Exif: Orientation becomes 1, the pixel dimensions those of the turned picture; the thumbnail and points in the picture, which
     * are those of the picture as it was, are taken out (Exif 2.3 4.6).
     */
    static byte[] exif(byte[] segment, int width, int height) {
        byte[] changed = segment.clone();
        if (changed.length < EXIF_START + 8) {
            return changed;
        }
        ByteBuffer tiff = ByteBuffer.wrap(changed, EXIF_START, changed.length - EXIF_START)
                .slice();
        tiff.order(tiff.get(0) == 'I' ? ByteOrder.LITTLE_ENDIAN : ByteOrder.BIG_ENDIAN);
        int first = tiff.getInt(4);
        if (entries(tiff, first) < 0) {
            return changed;
        }
        set(tiff, first, ORIENTATION, 1);
        int second = value(tiff, first, EXIF_DIRECTORY);
        if (entries(tiff, second) >= 0) {
            set(tiff, second, WIDTH, width);
            set(tiff, second, HEIGHT, height);
            remove(tiff, second, SUBJECT_AREA);
            remove(tiff, second, SUBJECT_LOCATION);
        }
        removeThumbnail(tiff, first);
        return changed;
    }

    /** How many entries a directory has; below zero if it does not lie within the block. */
    private static int entries(ByteBuffer tiff, int directory) {
        if (directory < 8 || directory > tiff.capacity() - 6) {
            return -1;
        }
        int count = tiff.getShort(directory) & 0xFFFF;
        return directory + 6 + ENTRY * count > tiff.capacity() ? -1 : count;
    }

    /** Offset of an entry, or -1. */
    private static int find(ByteBuffer tiff, int directory, int tag) {
        int count = entries(tiff, directory);
        for (int index = 0; index < count; index++) {
            int entry = directory + 2 + ENTRY * index;
            if ((tiff.getShort(entry) & 0xFFFF) == tag) {
                return entry;
            }
        }
        return -1;
    }

    /** The number of an entry, or 0. */
    private static int value(ByteBuffer tiff, int directory, int tag) {
        int entry = find(tiff, directory, tag);
        if (entry < 0 || tiff.getInt(entry + 4) != 1) {
            return 0;
        }
        return switch (tiff.getShort(entry + 2)) {
            case SHORT -> tiff.getShort(entry + 8) & 0xFFFF;
            case LONG -> tiff.getInt(entry + 8);
            default -> 0;
        };
    }

    private static void set(ByteBuffer tiff, int directory, int tag, int number) {
        int entry = find(tiff, directory, tag);
        if (entry < 0 || tiff.getInt(entry + 4) != 1) {
            return;
        }
        switch (tiff.getShort(entry + 2)) {
            case SHORT -> tiff.putShort(entry + 8, (short) number);
            case LONG -> tiff.putInt(entry + 8, number);
            default -> {}
        }
    }

    private static void remove(ByteBuffer tiff, int directory, int tag) {
        int entry = find(tiff, directory, tag);
        if (entry < 0) {
            return;
        }
        int count = entries(tiff, directory);
        int end = directory + 6 + ENTRY * count;
        for (int at = entry; at < end - ENTRY; at++) {
            tiff.put(at, tiff.get(at + ENTRY));
        }
        for (int at = end - ENTRY; at < end; at++) {
            tiff.put(at, (byte) 0);
        }
        tiff.putShort(directory, (short) (count - 1));
    }

    /** The link to the second directory goes, and the thumbnail's bytes with it. */
    private static void removeThumbnail(ByteBuffer tiff, int first) {
        int link = first + 2 + ENTRY * entries(tiff, first);
        int thumbnail = tiff.getInt(link);
        if (entries(tiff, thumbnail) < 0) {
            return;
        }
        int offset = value(tiff, thumbnail, THUMBNAIL_OFFSET);
        int length = value(tiff, thumbnail, THUMBNAIL_LENGTH);
        boolean within = offset >= 8 && length > 0 && length <= tiff.capacity() - offset;
        // Only what begins as a JPEG is a thumbnail: a wrong offset must not wipe something else
        if (within && (tiff.getShort(offset) & 0xFFFF) == jpegStart(tiff)) {
            for (int at = offset; at < offset + length; at++) {
                tiff.put(at, (byte) 0);
            }
        }
        tiff.putInt(link, 0);
    }

    private static int jpegStart(ByteBuffer tiff) {
        return tiff.order() == ByteOrder.BIG_ENDIAN ? 0xFFD8 : 0xD8FF;
    }
}
