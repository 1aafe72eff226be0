package vestibule.dicom.io;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.channels.WritableByteChannel;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
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
    private static final long LONGEST = 0xFFFF_FFFEL;
    private static final int BUFFER = 1 << 14;

    /** A data set whose values are encoded and checked, and the bytes it takes, group length included. */
    private record ReadyDataSet(@Nullable Tag groupLength, List<Ready> elements, long length) {}

    /** What an element's value field holds. */
    private sealed interface Content {
        record Bytes(Bulk bytes) implements Content {}

        record Items(List<ReadyDataSet> items) implements Content {}

        record Encapsulated(Value.Fragments fragments) implements Content {}
    }

    private record Ready(Element element, Content content, long valueLength) {}

    private final TransferSyntax syntax;
    private final DataSetCodec.Strictness strictness;
    private final ValueWriter values;
    private final WritableByteChannel target;
    private final ByteBuffer buffer = ByteBuffer.allocate(BUFFER).order(ByteOrder.LITTLE_ENDIAN);

    DataSetWriter(TransferSyntax syntax, DataSetCodec.Strictness strictness, WritableByteChannel target)
            throws DicomFormatException {
        if (syntax.deflated() || syntax.byteOrder() == ByteOrder.BIG_ENDIAN) {
            throw new DicomFormatException(syntax.name() + " is read but not written; write Explicit VR Little Endian");
        }
        this.syntax = syntax;
        this.strictness = strictness;
        this.values = new ValueWriter(strictness);
        this.target = target;
    }

    void write(DataSet dataSet) throws IOException {
        // All values are encoded and checked before the first byte leaves, so that a refusal leaves no half data set.
        emit(prepare(dataSet, CharacterSet.DEFAULT));
    }

    void flush() throws IOException {
        buffer.flip();
        while (buffer.hasRemaining()) {
            target.write(buffer);
        }
        buffer.clear();
    }

    private ReadyDataSet prepare(DataSet dataSet, CharacterSet inherited) throws IOException {
        CharacterSet characters = characterSet(dataSet, inherited);
        Tag groupLength = groupLengthTag(dataSet);
        long length = groupLength == null ? 0 : 12;
        List<Ready> elements = new ArrayList<>();
        for (Element element : dataSet) {
            if (!element.tag().isGroupLength()) {
                Ready ready = prepare(element, characters);
                checkReserved(dataSet, element.tag());
                elements.add(ready);
                length += headerLength(element) + ready.valueLength();
            }
        }
        return new ReadyDataSet(groupLength, elements, length);
    }

    /** A private element without a creator belongs to nobody, and the next reader may take it for something else (PS3.5 7.8.1). */
    private void checkReserved(DataSet dataSet, Tag tag) throws DicomFormatException {
        if (strictness == DataSetCodec.Strictness.OBJECT
                && tag.isPrivate()
                && !tag.isPrivateCreator()
                && (tag.element() < 0x1000
                        || dataSet.find(Tag.of(tag.group(), tag.element() >> 8)).isEmpty())) {
            throw new DicomFormatException(
                    tag
                            + " is private, and no private creator has reserved its block; put the creator in, or leave it out");
        }
    }

    private static CharacterSet characterSet(DataSet dataSet, CharacterSet inherited) throws DicomFormatException {
        if (!dataSet.contains(Attributes.SPECIFIC_CHARACTER_SET)) {
            return inherited;
        }
        return CharacterSet.of(dataSet.texts(Attributes.SPECIFIC_CHARACTER_SET))
                .orElseThrow(() -> new DicomFormatException(
                        Attributes.SPECIFIC_CHARACTER_SET + " names a character set that is not written here"));
    }

    private static @Nullable Tag groupLengthTag(DataSet dataSet) {
        if (dataSet.isEmpty()) {
            return null;
        }
        int group = dataSet.elements().get(0).tag().group();
        return group == 0 || group == 2 ? Tag.of(group, 0) : null;
    }

    private int headerLength(Element element) {
        return syntax.explicit() && element.vr().longForm() ? 12 : 8;
    }

    private Ready prepare(Element element, CharacterSet characters) throws IOException {
        if (element.tag().group() == 0xFFFE) {
            throw new DicomFormatException(element.tag() + " is no data element, it delimits items");
        }
        Ready ready = content(element, characters);
        long longest = syntax.explicit() && !element.vr().longForm() ? LONGEST_SHORT_FORM : LONGEST;
        if (!(ready.content() instanceof Content.Encapsulated) && ready.valueLength() > longest) {
            throw new DicomFormatException("%s has %d bytes, and %s takes at most %d"
                    .formatted(element.tag(), ready.valueLength(), element.vr(), longest));
        }
        return ready;
    }

    private Ready content(Element element, CharacterSet characters) throws IOException {
        if (element.value() instanceof Value.Items items) {
            List<ReadyDataSet> ready = new ArrayList<>();
            long length = 0;
            for (DataSet item : items.all()) {
                ReadyDataSet prepared = prepare(item, characters);
                ready.add(prepared);
                length += 8 + prepared.length();
            }
            return new Ready(element, new Content.Items(ready), length);
        }
        if (element.value() instanceof Value.Fragments fragments) {
            return new Ready(element, new Content.Encapsulated(fragments), fragmentsLength(element, fragments));
        }
        Bulk bytes = values.encode(element, characters);
        return new Ready(element, new Content.Bytes(bytes), bytes.length());
    }

    private long fragmentsLength(Element element, Value.Fragments fragments) throws DicomFormatException {
        if (!syntax.encapsulated()) {
            throw new DicomFormatException(
                    "%s is encapsulated, and %s has no fragments".formatted(element.tag(), syntax.name()));
        }
        if (element.vr() != VR.OB) {
            throw new DicomFormatException("%s is encapsulated, and has %s where PS3.5 A.4 asks for OB"
                    .formatted(element.tag(), element.vr()));
        }
        for (long offset : fragments.offsetTable()) {
            if (offset < 0 || offset > LONGEST) {
                throw new DicomFormatException(
                        "%s has a fragment at %d, and the offset table reaches to %d; leave the table empty"
                                .formatted(element.tag(), offset, LONGEST));
            }
        }
        long length = 8 + 4L * fragments.offsetTable().size() + 8;
        for (Bulk fragment : fragments.fragments()) {
            if (fragment.length() > LONGEST) {
                throw new DicomFormatException("%s has a fragment of %d bytes, and one takes at most %d"
                        .formatted(element.tag(), fragment.length(), LONGEST));
            }
            length += 8 + even(fragment.length());
        }
        return length;
    }

    private static long even(long length) {
        return length + (length & 1);
    }

    private void emit(ReadyDataSet dataSet) throws IOException {
        if (dataSet.groupLength() != null) {
            header(dataSet.groupLength(), VR.UL, 4);
            room(4).putInt((int) (dataSet.length() - 12));
        }
        for (Ready ready : dataSet.elements()) {
            emit(ready);
        }
    }

    private void emit(Ready ready) throws IOException {
        Element element = ready.element();
        if (ready.content() instanceof Content.Encapsulated encapsulated) {
            header(element.tag(), element.vr(), Encoded.UNDEFINED_LENGTH);
            emit(encapsulated.fragments());
            return;
        }
        header(element.tag(), element.vr(), ready.valueLength());
        if (ready.content() instanceof Content.Items items) {
            for (ReadyDataSet item : items.items()) {
                itemHeader(Tag.ITEM, item.length());
                emit(item);
            }
        } else if (ready.content() instanceof Content.Bytes bytes) {
            copy(bytes.bytes());
        }
    }

    private void emit(Value.Fragments fragments) throws IOException {
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
