package vestibule.dicom.net.pdu;

import java.io.ByteArrayOutputStream;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;

/** Collects the bytes of a PDU in big endian order; lengths are filled in once their content is there. */
final class PduBytes {

    private ByteArrayOutputStream bytes = new ByteArrayOutputStream();

    PduBytes one(int value) {
        bytes.write(value);
        return this;
    }

    PduBytes two(int value) {
        return one(value >>> 8).one(value);
    }

    PduBytes four(long value) {
        return two((int) (value >>> 16)).two((int) value);
    }

    PduBytes bytes(byte[] all) {
        bytes.writeBytes(all);
        return this;
    }

    PduBytes bytes(ByteBuffer fragment) {
        byte[] all = new byte[fragment.remaining()];
        fragment.duplicate().get(all);
        return bytes(all);
    }

    /** Latin-1 characters, so that what was read goes back as it came. */
    PduBytes text(String text) {
        return bytes(text.getBytes(StandardCharsets.ISO_8859_1));
    }

    /** Characters in a field of fixed size, padded on the right. */
    PduBytes field(String text, int size, char padding) {
        return text((text + String.valueOf(padding).repeat(size)).substring(0, size));
    }

    /** A length field of that many bytes, then what the content writes. */
    PduBytes counted(int lengthBytes, Runnable content) {
        ByteArrayOutputStream outer = bytes;
        bytes = new ByteArrayOutputStream();
        content.run();
        byte[] inner = bytes.toByteArray();
        bytes = outer;
        if (lengthBytes == 2 && inner.length > 0xFFFF) {
            throw new IllegalArgumentException(inner.length + " bytes in an item, which holds 65535");
        }
        return (lengthBytes == 4 ? four(inner.length) : two(inner.length)).bytes(inner);
    }

    /** An item: type, reserved byte, length, content (PS3.8 9.3.1). */
    PduBytes item(int type, Runnable content) {
        return one(type).one(0).counted(2, content);
    }

    ByteBuffer toBuffer() {
        return ByteBuffer.wrap(bytes.toByteArray());
    }
}
