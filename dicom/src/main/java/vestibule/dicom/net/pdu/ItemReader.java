package vestibule.dicom.net.pdu;

import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import vestibule.dicom.data.Bulk;
import vestibule.dicom.io.DicomFormatException;

/** Walks bytes of a PDU and checks every length against what is really there. */
final class ItemReader {

    private final ByteBuffer bytes;
    private final int[] itemsSeen;

    ItemReader(ByteBuffer bytes) {
        this(bytes, new int[1]);
    }

    private ItemReader(ByteBuffer bytes, int[] itemsSeen) {
        this.bytes = bytes;
        this.itemsSeen = itemsSeen;
    }

    /** One item: its type, and a reader over its content. */
    record Item(int type, ItemReader content) {}

    boolean hasMore() {
        return bytes.hasRemaining();
    }

    Item item() throws DicomFormatException {
        if (++itemsSeen[0] > Items.MOST) {
            throw new DicomFormatException(bytes.position(), "more than " + Items.MOST + " items", "fewer");
        }
        int type = one();
        one();
        return new Item(type, part(two()));
    }

    int one() throws DicomFormatException {
        need(1);
        return bytes.get() & 0xFF;
    }

    int two() throws DicomFormatException {
        need(2);
        return bytes.getShort() & 0xFFFF;
    }

    long four() throws DicomFormatException {
        need(4);
        return bytes.getInt() & 0xFFFF_FFFFL;
    }

    String text(int length) throws DicomFormatException {
        return new String(array(length), StandardCharsets.ISO_8859_1);
    }

    /** The rest as an identifier or name; padding that should not be there is taken off (PS3.8 F). */
    String unpadded() throws DicomFormatException {
        String text = text(bytes.remaining());
        int end = text.length();
        while (end > 0 && (text.charAt(end - 1) == 0 || text.charAt(end - 1) == ' ')) {
            end--;
        }
        return text.substring(0, end);
    }

    Bulk rest() throws DicomFormatException {
        return Bulk.of(array(bytes.remaining()));
    }

    /** A reader over what a 16-bit length counts. */
    ItemReader counted() throws DicomFormatException {
        return part(two());
    }

    private ItemReader part(int length) throws DicomFormatException {
        need(length);
        ByteBuffer content = bytes.slice(bytes.position(), length);
        bytes.position(bytes.position() + length);
        return new ItemReader(content, itemsSeen);
    }

    private byte[] array(int length) throws DicomFormatException {
        need(length);
        byte[] array = new byte[length];
        bytes.get(array);
        return array;
    }

    private void need(int count) throws DicomFormatException {
        if (bytes.remaining() < count) {
            throw new DicomFormatException(
                    bytes.position(), "%d bytes left in an item".formatted(bytes.remaining()), "at least " + count);
        }
    }
}
