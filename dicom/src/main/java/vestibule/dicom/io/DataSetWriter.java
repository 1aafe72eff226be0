package vestibule.dicom.io;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.channels.WritableByteChannel;
import java.nio.charset.StandardCharsets;
import java.util.IdentityHashMap;
import java.util.List;
import vestibule.dicom.data.Bulk;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Element;
import vestibule.dicom.data.Element.Encoded;
import vestibule.dicom.data.Tag;
import vestibule.dicom.data.VR;
import vestibule.dicom.data.Value;
import vestibule.dicom.dict.Attributes;

/**
 * Writes data sets in little endian byte order (PS3.5 7, A.1, A.2, A.4): sequences and items of defined length, encapsulated pixel data
 * of undefined length. Group lengths are left out but for groups 0000 and 0002, where they are worked out.
 */
final class DataSetWriter {

    private static final long LONGEST_SHORT_FORM = 0xFFFE;
    private static final int BUFFER = 1 << 14;

    private final TransferSyntax syntax;
    private final ValueWriter values;
    private final WritableByteChannel target;
    private final ByteBuffer buffer = ByteBuffer.allocate(BUFFER).order(ByteOrder.LITTLE_ENDIAN);
    private final IdentityHashMap<Element, Bulk> encoded = new IdentityHashMap<>();

    DataSetWriter(TransferSyntax syntax, DataSetCodec.Strictness strictness, WritableByteChannel target)
            throws DicomFormatException {
        if (syntax.deflated() || syntax.byteOrder() == ByteOrder.BIG_ENDIAN) {
            throw new DicomFormatException(syntax.name() + " is read but not written; write Explicit VR Little Endian");
        }
        this.syntax = syntax;
        this.values = new ValueWriter(strictness);
        this.target = target;
    }

    void write(DataSet dataSet) throws IOException {
        // All values are encoded and checked before the first byte leaves, so that a refusal leaves no half data set.
        long length = prepare(dataSet, CharacterSet.DEFAULT);
        if (length > 0xFFFF_FFFFL && dataSet.stream().noneMatch(e -> e.value() instanceof Value.Fragments)) {
            throw new DicomFormatException("a data set of %d bytes, which no length field holds".formatted(length));
        }
        emit(dataSet);
    }

    void flush() throws IOException {
        buffer.flip();
        while (buffer.hasRemaining()) {
            target.write(buffer);
        }
        buffer.clear();
    }

    private boolean isLeftOut(Element element) {
        return element.tag().isGroupLength();
    }

    /** Encodes the values of a data set and of all items in it, and returns how many bytes it takes. */
    private long prepare(DataSet dataSet, CharacterSet inherited) throws IOException {
        CharacterSet characters = inherited;
        if (dataSet.contains(Attributes.SPECIFIC_CHARACTER_SET)) {
            List<String> terms = dataSet.texts(Attributes.SPECIFIC_CHARACTER_SET);
            characters = CharacterSet.of(terms)
                    .orElseThrow(() -> new DicomFormatException(
                            Attributes.SPECIFIC_CHARACTER_SET + " names a character set that is not written here"));
        }
        long length = groupLengthBytes(dataSet);
        for (Element element : dataSet) {
            if (!isLeftOut(element)) {
                length += headerLength(element) + valueLength(element, characters);
            }
        }
        return length;
    }

    private long groupLengthBytes(DataSet dataSet) {
        return groupLengthTag(dataSet) == null ? 0 : 12;
    }

    private static @org.jspecify.annotations.Nullable Tag groupLengthTag(DataSet dataSet) {
        if (dataSet.isEmpty()) {
            return null;
        }
        int group = dataSet.elements().get(0).tag().group();
        return group == 0 || group == 2 ? Tag.of(group, 0) : null;
    }

    private int headerLength(Element element) {
        return syntax.explicit() && element.vr().longForm() ? 12 : 8;
    }

    private long valueLength(Element element, CharacterSet characters) throws IOException {
        if (element.value() instanceof Value.Items items) {
            long length = 0;
            for (DataSet item : items.all()) {
                length += 8 + prepare(item, characters);
            }
            return length;
        }
        if (element.value() instanceof Value.Fragments fragments) {
            return fragmentsLength(element, fragments);
        }
        Bulk bytes = values.encode(element, characters);
        if (syntax.explicit() && !element.vr().longForm() && bytes.length() > LONGEST_SHORT_FORM) {
            throw new DicomFormatException("%s has %d bytes, and %s takes at most %d"
                    .formatted(element.tag(), bytes.length(), element.vr(), LONGEST_SHORT_FORM));
        }
        encoded.put(element, bytes);
        return bytes.length();
    }

    private long fragmentsLength(Element element, Value.Fragments fragments) throws DicomFormatException {
        if (!syntax.encapsulated()) {
            throw new DicomFormatException(
                    "%s is encapsulated, and %s has no fragments".formatted(element.tag(), syntax.name()));
        }
        long length = 8 + 4L * fragments.offsetTable().size() + 8;
        for (Bulk fragment : fragments.fragments()) {
            length += 8 + even(fragment.length());
        }
        return length;
    }

    private static long even(long length) {
        return length + (length & 1);
    }

    private void emit(DataSet dataSet) throws IOException {
        Tag groupLength = groupLengthTag(dataSet);
        if (groupLength != null) {
            header(groupLength, VR.UL, 4);
            room(4).putInt((int) (emittedLength(dataSet) - 12));
        }
        for (Element element : dataSet) {
            if (!isLeftOut(element)) {
                emit(element);
            }
        }
    }

    /** The length of a prepared data set, group length included. */
    private long emittedLength(DataSet dataSet) {
        long length = groupLengthBytes(dataSet);
        for (Element element : dataSet) {
            if (!isLeftOut(element)) {
                length += headerLength(element) + emittedValueLength(element);
            }
        }
        return length;
    }

    private long emittedValueLength(Element element) {
        if (element.value() instanceof Value.Items items) {
            return items.all().stream()
                    .mapToLong(item -> 8 + emittedLength(item))
                    .sum();
        }
        Bulk bytes = encoded.get(element);
        return bytes == null ? 0 : bytes.length();
    }

    private void emit(Element element) throws IOException {
        if (element.value() instanceof Value.Items items) {
            header(element.tag(), VR.SQ, emittedValueLength(element));
            for (DataSet item : items.all()) {
                itemHeader(Tag.ITEM, emittedLength(item));
                emit(item);
            }
        } else if (element.value() instanceof Value.Fragments fragments) {
            emit(element, fragments);
        } else {
            Bulk bytes = java.util.Objects.requireNonNull(encoded.get(element));
            header(element.tag(), element.vr(), bytes.length());
            copy(bytes);
        }
    }

    private void emit(Element element, Value.Fragments fragments) throws IOException {
        header(element.tag(), element.vr(), Encoded.UNDEFINED_LENGTH);
        itemHeader(Tag.ITEM, 4L * fragments.offsetTable().size());
        for (long offset : fragments.offsetTable()) {
            room(4).putInt((int) offset);
        }
        for (Bulk fragment : fragments.fragments()) {
            itemHeader(Tag.ITEM, even(fragment.length()));
            copy(fragment);
            if ((fragment.length() & 1) == 1) {
                room(1).put((byte) 0);
            }
        }
        itemHeader(Tag.SEQUENCE_DELIMITATION, 0);
    }

    private void itemHeader(Tag tag, long length) throws IOException {
        room(8).putShort((short) tag.group()).putShort((short) tag.element()).putInt((int) length);
    }

    private void header(Tag tag, VR vr, long length) throws IOException {
        room(12).putShort((short) tag.group()).putShort((short) tag.element());
        if (!syntax.explicit()) {
            buffer.putInt((int) length);
            return;
        }
        buffer.put(vr.name().getBytes(StandardCharsets.US_ASCII));
        if (vr.longForm()) {
            buffer.putShort((short) 0).putInt((int) length);
        } else {
            buffer.putShort((short) length);
        }
    }

    private ByteBuffer room(int bytes) throws IOException {
        if (buffer.remaining() < bytes) {
            flush();
        }
        return buffer;
    }

    private void copy(Bulk bytes) throws IOException {
        if (bytes.length() <= buffer.remaining()) {
            buffer.put(bytes.bytes(BUFFER));
        } else {
            flush();
            bytes.transferTo(target);
        }
    }
}
