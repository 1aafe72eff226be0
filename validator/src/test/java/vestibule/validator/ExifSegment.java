package vestibule.validator;

import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;

/** Exif payloads put together from directories (Exif 2.3 4.6): little endian, every entry a short or a long in its value field. */
final class ExifSegment {

    static final int APP1 = 0xE1;

    private ExifSegment() {}

    /** One directory with one short: the orientation. */
    static byte[] orientation(int value) {
        return block(entry(0x0112, 3, value));
    }

    /** One directory with one tag that the program should notice by being there. */
    static byte[] tag(int tag) {
        return block(entry(tag, 3, 1));
    }

    /** A directory of positions with the latitude reference, behind the main one. */
    static byte[] position() {
        int second = 8 + 2 + 12 + 4;
        return join(block(entry(0x8825, 4, second)), directory(0, entry(0x0001, 2, 'N')));
    }

    /** A second directory, which describes a thumbnail. */
    static byte[] thumbnail() {
        int second = 8 + 2 + 12 + 4;
        byte[] first = directory(second, entry(0x0112, 3, 1));
        return join(join(head(), first), directory(0, entry(0x0103, 3, 6)));
    }

    private static byte[] block(byte[] entry) {
        return join(head(), directory(0, entry));
    }

    private static byte[] head() {
        ByteBuffer bytes = ByteBuffer.allocate(14).order(ByteOrder.LITTLE_ENDIAN);
        bytes.put("Exif\0\0II".getBytes(StandardCharsets.US_ASCII))
                .putShort((short) 42)
                .putInt(8);
        return bytes.array();
    }

    private static byte[] directory(int next, byte[] entry) {
        ByteBuffer bytes = ByteBuffer.allocate(2 + entry.length + 4).order(ByteOrder.LITTLE_ENDIAN);
        return bytes.putShort((short) 1).put(entry).putInt(next).array();
    }

    private static byte[] entry(int tag, int type, int value) {
        ByteBuffer bytes = ByteBuffer.allocate(12).order(ByteOrder.LITTLE_ENDIAN);
        return bytes.putShort((short) tag)
                .putShort((short) type)
                .putInt(1)
                .putInt(value)
                .array();
    }

    private static byte[] join(byte[] left, byte[] right) {
        return ByteBuffer.allocate(left.length + right.length)
                .put(left)
                .put(right)
                .array();
    }
}
