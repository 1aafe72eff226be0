package vestibule.samples.camera;

import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;

/** An image file directory of TIFF 6.0: tags in rising order, values in either byte order. */
final class TiffDirectory {
    private static final int BYTE = 1;
    private static final int ASCII = 2;
    private static final int SHORT = 3;
    private static final int LONG = 4;
    private static final int RATIONAL = 5;
    private static final int UNDEFINED = 7;
    private static final int SIGNED_RATIONAL = 10;

    /** A value, its numbers kept as numbers until the byte order is known. */
    private record Field(
            int type,
            int count,
            int size,
            List<Integer> numbers,
            @Nullable TiffDirectory child) {}

    private final Map<Integer, Field> fields = new TreeMap<>();
    private byte[] block = new byte[0];
    private int blockTag;
    private @Nullable TiffDirectory next;

    TiffDirectory text(int tag, String value) {
        byte[] bytes = (value + "\0").getBytes(StandardCharsets.UTF_8);
        return put(tag, ASCII, bytes.length, 1, unsigned(bytes));
    }

    TiffDirectory bytes(int tag, String value) {
        return raw(
                tag,
                unsigned(value.getBytes(StandardCharsets.US_ASCII)).stream()
                        .mapToInt(Integer::intValue)
                        .toArray());
    }

    /** Undefined bytes; the GPS version, which is tag 0, wants plain bytes. */
    TiffDirectory raw(int tag, int... values) {
        return put(tag, tag == 0 ? BYTE : UNDEFINED, values.length, 1, list(values));
    }

    TiffDirectory shorts(int tag, int... values) {
        return put(tag, SHORT, values.length, 2, list(values));
    }

    TiffDirectory longs(int tag, int... values) {
        return put(tag, LONG, values.length, 4, list(values));
    }

    TiffDirectory rational(int tag, int numerator, int denominator) {
        return rationals(tag, numerator, denominator);
    }

    TiffDirectory rationals(int tag, int... pairs) {
        return put(tag, RATIONAL, pairs.length / 2, 4, list(pairs));
    }

    TiffDirectory signedRational(int tag, int numerator, int denominator) {
        return put(tag, SIGNED_RATIONAL, 1, 4, List.of(numerator, denominator));
    }

    TiffDirectory directory(int tag, TiffDirectory child) {
        fields.put(tag, new Field(LONG, 1, 4, List.of(0), child));
        return this;
    }

    /** A block of bytes pointed to by one tag, its length in another. */
    TiffDirectory block(int offsetTag, int lengthTag, byte[] bytes) {
        block = bytes.clone();
        blockTag = offsetTag;
        return longs(offsetTag, 0).longs(lengthTag, bytes.length);
    }

    TiffDirectory next(TiffDirectory directory) {
        next = directory;
        return this;
    }

    private TiffDirectory put(int tag, int type, int count, int size, List<Integer> numbers) {
        fields.put(tag, new Field(type, count, size, List.copyOf(numbers), null));
        return this;
    }

    private static List<Integer> unsigned(byte[] bytes) {
        List<Integer> result = new ArrayList<>();
        for (byte b : bytes) {
            result.add(b & 255);
        }
        return result;
    }

    private static List<Integer> list(int[] values) {
        List<Integer> result = new ArrayList<>();
        for (int value : values) {
            result.add(value);
        }
        return result;
    }

    /** The whole TIFF file, header first. */
    byte[] file(ByteOrder order) {
        ByteBuffer buffer = ByteBuffer.allocate(8 + length()).order(order);
        buffer.put(order == ByteOrder.BIG_ENDIAN ? new byte[] {'M', 'M'} : new byte[] {'I', 'I'});
        buffer.putShort((short) 42).putInt(8);
        write(buffer);
        return buffer.array();
    }

    private int length() {
        int length = 2 + 12 * fields.size() + 4 + even(block.length);
        for (Field field : fields.values()) {
            length += field.child == null ? outside(field) : field.child.length();
        }
        return length + (next == null ? 0 : next.length());
    }

    private static int outside(Field field) {
        int bytes = field.numbers.size() * field.size;
        return bytes <= 4 ? 0 : even(bytes);
    }

    private static int even(int length) {
        return length + (length & 1);
    }

    /** Writes the directory where the buffer stands: entries, then values, then what it points to. */
    private void write(ByteBuffer buffer) {
        int start = buffer.position();
        int values = start + 2 + 12 * fields.size() + 4;
        buffer.putShort((short) fields.size());
        ByteBuffer later = buffer.duplicate().order(buffer.order()).position(values);
        for (Map.Entry<Integer, Field> entry : fields.entrySet()) {
            Field field = entry.getValue();
            buffer.putShort((short) (int) entry.getKey())
                    .putShort((short) field.type)
                    .putInt(field.count);
            if (field.child != null) {
                buffer.putInt(later.position());
                field.child.write(later);
            } else if (entry.getKey() == blockTag && block.length > 0) {
                buffer.putInt(later.position());
                later.put(block);
                later.position(even(later.position()));
            } else if (outside(field) == 0) {
                int from = buffer.position();
                numbers(buffer, field);
                buffer.position(from + 4);
            } else {
                buffer.putInt(later.position());
                numbers(later, field);
                later.position(even(later.position()));
            }
        }
        buffer.putInt(next == null ? 0 : later.position());
        if (next != null) {
            next.write(later);
        }
        buffer.position(later.position());
    }

    private static void numbers(ByteBuffer buffer, Field field) {
        for (int number : field.numbers) {
            switch (field.size) {
                case 1 -> buffer.put((byte) number);
                case 2 -> buffer.putShort((short) number);
                default -> buffer.putInt(number);
            }
        }
    }
}
