package vestibule.bridge.photo;

import java.io.ByteArrayOutputStream;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;

/** An Exif block written for a test: two directories of a big-endian TIFF stream (TIFF 6.0, section 2; Exif 2.3, 4.6). */
public final class ExifBlock {

    private static final class Entry {
        private final int tag;
        private final int type;
        private final int count;
        private final byte[] value;

        Entry(int tag, int type, int count, byte[] value) {
            this.tag = tag;
            this.type = type;
            this.count = count;
            this.value = value;
        }
    }

    private final List<Entry> first = new ArrayList<>();
    private final List<Entry> second = new ArrayList<>();

    public ExifBlock first(int tag, String text) {
        return put(first, ascii(tag, text));
    }

    public ExifBlock first(int tag, int number) {
        return put(
                first,
                new Entry(
                        tag,
                        3,
                        1,
                        ByteBuffer.allocate(2).putShort((short) number).array()));
    }

    public ExifBlock second(int tag, String text) {
        return put(second, ascii(tag, text));
    }

    ExifBlock second(int tag, int number) {
        return put(
                second,
                new Entry(
                        tag,
                        3,
                        1,
                        ByteBuffer.allocate(2).putShort((short) number).array()));
    }

    ExifBlock fraction(int tag, long numerator, long denominator) {
        byte[] value = ByteBuffer.allocate(8)
                .putInt((int) numerator)
                .putInt((int) denominator)
                .array();
        return put(second, new Entry(tag, 5, 1, value));
    }

    ExifBlock signedFraction(int tag, int numerator, int denominator) {
        byte[] value =
                ByteBuffer.allocate(8).putInt(numerator).putInt(denominator).array();
        return put(second, new Entry(tag, 10, 1, value));
    }

    private static Entry ascii(int tag, String text) {
        byte[] bytes = (text + "\0").getBytes(StandardCharsets.UTF_8);
        return new Entry(tag, 2, bytes.length, bytes);
    }

    private ExifBlock put(List<Entry> directory, Entry entry) {
        directory.add(entry);
        directory.sort((a, b) -> Integer.compare(a.tag, b.tag));
        return this;
    }

    public byte[] bytes() {
        put(first, new Entry(0x8769, 4, 1, new byte[4]));
        int secondStart = 8 + size(first);
        first.replaceAll(entry -> entry.tag == 0x8769
                ? new Entry(
                        0x8769, 4, 1, ByteBuffer.allocate(4).putInt(secondStart).array())
                : entry);
        ByteArrayOutputStream block = new ByteArrayOutputStream();
        block.writeBytes("Exif\0\0".getBytes(StandardCharsets.US_ASCII));
        block.writeBytes(new byte[] {'M', 'M', 0, 42, 0, 0, 0, 8});
        block.writeBytes(directory(first, 8));
        block.writeBytes(directory(second, secondStart));
        return block.toByteArray();
    }

    /** A picture with these Exif blocks in place of those that it has. */
    public static byte[] in(byte[] jpeg, byte[]... blocks) {
        ByteArrayOutputStream picture = new ByteArrayOutputStream();
        picture.write(jpeg, 0, 2);
        for (byte[] block : blocks) {
            picture.writeBytes(ByteBuffer.allocate(4)
                    .putShort((short) 0xFFE1)
                    .putShort((short) (block.length + 2))
                    .array());
            picture.writeBytes(block);
        }
        ByteBuffer from = ByteBuffer.wrap(jpeg);
        int at = 2;
        while (from.getShort(at) != (short) 0xFFDA) {
            int length = 2 + (from.getShort(at + 2) & 0xFFFF);
            if (from.getShort(at) != (short) 0xFFE1) {
                picture.write(jpeg, at, length);
            }
            at += length;
        }
        picture.write(jpeg, at, jpeg.length - at);
        return picture.toByteArray();
    }

    private static int size(List<Entry> entries) {
        return 6
                + 12 * entries.size()
                + entries.stream()
                        .mapToInt(entry -> entry.value.length > 4 ? entry.value.length : 0)
                        .sum();
    }

    private static byte[] directory(List<Entry> entries, int start) {
        ByteBuffer bytes = ByteBuffer.allocate(size(entries));
        bytes.putShort((short) entries.size());
        int data = start + 6 + 12 * entries.size();
        List<byte[]> late = new ArrayList<>();
        for (Entry entry : entries) {
            bytes.putShort((short) entry.tag).putShort((short) entry.type).putInt(entry.count);
            if (entry.value.length > 4) {
                bytes.putInt(data);
                data += entry.value.length;
                late.add(entry.value);
            } else {
                bytes.put(entry.value).put(new byte[4 - entry.value.length]);
            }
        }
        bytes.putInt(0);
        late.forEach(bytes::put);
        return bytes.array();
    }
}
