package vestibule.dicom.io;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.Predicate;
import vestibule.dicom.data.Bulk;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Element;
import vestibule.dicom.data.Element.Encoded;
import vestibule.dicom.data.Tag;
import vestibule.dicom.data.VR;
import vestibule.dicom.data.Value;
import vestibule.dicom.dict.Attributes;

/** Builds data sets from tokens: values are decoded, the bytes as read stay beside them. */
final class DataSetReader {

    /** About what one string, and one number, takes in memory beside its characters. */
    private static final long STRING_BYTES = 64;

    private static final long NUMBER_BYTES = 32;

    private final TokenReader tokens;
    private final ByteOrder order;
    private final Limits limits;
    private final List<ReadNote> notes;
    private boolean unsettled;

    DataSetReader(TokenReader tokens, ByteOrder order, Limits limits, List<ReadNote> notes) {
        this.tokens = tokens;
        this.order = order;
        this.limits = limits;
        this.notes = notes;
    }

    /** Everything up to the end of the source. */
    DataSet read() throws IOException {
        DataSet dataSet = dataSet(CharacterSet.DEFAULT, Token.End.class::isInstance);
        return unsettled ? PixelRepresentation.settle(dataSet) : dataSet;
    }

    private DataSet dataSet(CharacterSet inherited, Predicate<Token> end) throws IOException {
        DataSet.Builder builder = DataSet.builder();
        Set<Tag> seen = new HashSet<>();
        CharacterSet characters = inherited;
        Tag last = new Tag(0);
        for (Token token = tokens.next(); !end.test(token); token = tokens.next()) {
            Element element = element(token, characters);
            Tag tag = element.tag();
            long offset = element.encoded() == null ? 0 : element.encoded().offset();
            if (!seen.add(tag)) {
                notes.add(new ReadNote(ReadNote.Kind.TWICE, offset, tag + " comes twice"));
                continue;
            }
            if (tag.compareTo(last) < 0) {
                notes.add(new ReadNote(ReadNote.Kind.ORDER, offset, tag + " comes after " + last));
            }
            last = tag;
            builder.put(element);
            if (tag.equals(Attributes.SPECIFIC_CHARACTER_SET.tag())) {
                characters = declared(element, offset);
                for (Element early : builder.build()) {
                    builder.put(again(early, characters));
                }
            }
        }
        return builder.build();
    }

    private CharacterSet declared(Element element, long offset) {
        List<String> terms = element.value() instanceof Value.Texts texts ? texts.all() : List.of();
        Optional<CharacterSet> known = CharacterSet.of(terms);
        if (known.isEmpty()) {
            notes.add(new ReadNote(ReadNote.Kind.UNKNOWN_CHARACTER_SET, offset, String.join("\\", terms)));
        }
        return known.orElse(CharacterSet.DEFAULT);
    }

    /** The set counts for the whole data set (PS3.3 C.12.1.1.2), so text that came before it, out of order, is decoded again. */
    private Element again(Element early, CharacterSet characters) throws IOException {
        Encoded encoded = early.encoded();
        if (encoded == null) {
            return early;
        }
        if (early.value() instanceof Value.Items items) {
            List<DataSet> all = new ArrayList<>();
            for (DataSet item : items.all()) {
                all.add(item.contains(Attributes.SPECIFIC_CHARACTER_SET) ? item : again(item, characters));
            }
            return new Element(early.tag(), early.vr(), new Value.Items(all), encoded);
        }
        if (!(early.value() instanceof Value.Texts) || !early.vr().followsCharacterSet()) {
            return early;
        }
        Token.Leaf leaf = new Token.Leaf(
                early.tag(), early.vr(), encoded.vr(), encoded.offset(), encoded.declaredLength(), encoded.bytes());
        return new Element(early.tag(), early.vr(), value(leaf, characters), encoded);
    }

    private DataSet again(DataSet item, CharacterSet characters) throws IOException {
        DataSet.Builder builder = item.toBuilder();
        for (Element element : item.elements()) {
            builder.put(again(element, characters));
        }
        return builder.build();
    }

    private Element element(Token token, CharacterSet characters) throws IOException {
        if (token instanceof Token.Leaf leaf) {
            Element element = new Element(leaf.tag(), leaf.vr(), value(leaf, characters), encoded(leaf));
            unsettled |= PixelRepresentation.decides(element);
            return element;
        }
        if (token instanceof Token.SequenceStart start) {
            return new Element(
                    start.tag(),
                    VR.SQ,
                    new Value.Items(items(characters)),
                    new Encoded(start.offset(), start.writtenVr(), start.length(), Bulk.EMPTY));
        }
        if (token instanceof Token.FragmentsStart start) {
            return new Element(
                    start.tag(),
                    start.vr(),
                    fragments(start),
                    new Encoded(start.offset(), start.writtenVr(), Encoded.UNDEFINED_LENGTH, Bulk.EMPTY));
        }
        throw new AssertionError(token);
    }

    private static Encoded encoded(Token.Leaf leaf) {
        return new Encoded(leaf.offset(), leaf.writtenVr(), leaf.length(), leaf.bytes());
    }

    private List<DataSet> items(CharacterSet characters) throws IOException {
        List<DataSet> items = new ArrayList<>();
        for (Token token = tokens.next(); token instanceof Token.ItemStart; token = tokens.next()) {
            items.add(dataSet(characters, Token.ItemEnd.class::isInstance));
        }
        return items;
    }

    private Value fragments(Token.FragmentsStart start) throws IOException {
        List<Bulk> all = new ArrayList<>();
        for (Token token = tokens.next(); token instanceof Token.Fragment fragment; token = tokens.next()) {
            all.add(fragment.bytes());
        }
        if (all.isEmpty()) {
            return new Value.Fragments(List.of(), List.of());
        }
        ByteBuffer table = ByteBuffer.wrap(offsetTable(start, all.get(0))).order(ByteOrder.LITTLE_ENDIAN);
        List<Long> offsets = new ArrayList<>();
        while (table.remaining() >= 4) {
            offsets.add(table.getInt() & 0xFFFF_FFFFL);
        }
        return new Value.Fragments(offsets, all.subList(1, all.size()));
    }

    private byte[] offsetTable(Token.FragmentsStart start, Bulk table) throws IOException {
        if (table.length() > limits.valueBytes()) {
            throw new DicomFormatException(
                    start.offset(),
                    "an offset table of %d bytes".formatted(table.length()),
                    "at most " + limits.valueBytes());
        }
        hold(start.tag(), start.offset(), NUMBER_BYTES * (table.length() / 4));
        return table.bytes(limits.valueBytes());
    }

    private void hold(Tag tag, long offset, long bytes) throws DicomFormatException {
        if (!tokens.hold(bytes)) {
            throw new DicomFormatException(
                    offset,
                    tag + " after values that fill the memory there is for one data set",
                    "values that take at most %d bytes in all".formatted(tokens.budget()));
        }
    }

    private Value value(Token.Leaf leaf, CharacterSet characters) throws IOException {
        VR vr = leaf.vr();
        if (vr.kind() == VR.Kind.BINARY) {
            return new Value.Binary(littleEndian(leaf));
        }
        if (leaf.length() > limits.valueBytes()) {
            throw new DicomFormatException(
                    leaf.offset(),
                    "%s with %d bytes".formatted(leaf.tag(), leaf.length()),
                    "at most " + limits.valueBytes());
        }
        byte[] bytes = leaf.bytes().bytes(limits.valueBytes());
        return switch (vr.kind()) {
            case TEXT -> new Value.Texts(texts(leaf, bytes, characters));
            case INTEGER -> new Value.Integers(integers(leaf, numbers(leaf, bytes)));
            case REAL -> new Value.Reals(reals(vr, numbers(leaf, bytes)));
            case BINARY, SEQUENCE -> throw new AssertionError(vr);
        };
    }

    private Bulk littleEndian(Token.Leaf leaf) throws IOException {
        int unit = leaf.vr().unitBytes();
        if (order == ByteOrder.LITTLE_ENDIAN || unit == 1) {
            return leaf.bytes();
        }
        if (leaf.length() > limits.inflatedBytes()) {
            throw new DicomFormatException(
                    leaf.offset(),
                    "%s with %d bytes in big endian order".formatted(leaf.tag(), leaf.length()),
                    "at most " + limits.inflatedBytes());
        }
        hold(leaf.tag(), leaf.offset(), leaf.length());
        byte[] bytes = leaf.bytes().bytes(limits.inflatedBytes());
        for (int start = 0; start + unit <= bytes.length; start += unit) {
            for (int i = 0; i < unit / 2; i++) {
                byte swapped = bytes[start + i];
                bytes[start + i] = bytes[start + unit - 1 - i];
                bytes[start + unit - 1 - i] = swapped;
            }
        }
        return Bulk.of(bytes);
    }

    private List<String> texts(Token.Leaf leaf, byte[] bytes, CharacterSet characters) throws DicomFormatException {
        if (bytes.length == 0) {
            return List.of();
        }
        long parts = 1;
        for (byte b : bytes) {
            parts += b == '\\' ? 1 : 0;
        }
        hold(leaf.tag(), leaf.offset(), 2L * bytes.length + STRING_BYTES * parts);
        CharacterSet used = leaf.vr().followsCharacterSet() ? characters : CharacterSet.DEFAULT;
        String text = used.decode(bytes, leaf.vr()).orElseGet(() -> {
            notes.add(new ReadNote(
                    ReadNote.Kind.CHARACTERS, leaf.offset(), leaf.tag() + " has bytes outside its character set"));
            return new String(bytes, StandardCharsets.ISO_8859_1);
        });
        String[] values = leaf.vr().severalValues() ? text.split("\\\\", -1) : new String[] {text};
        return java.util.Arrays.stream(values)
                .map(DataSetReader::withoutPadding)
                .toList();
    }

    private static String withoutPadding(String value) {
        int end = value.length();
        while (end > 0 && (value.charAt(end - 1) == ' ' || value.charAt(end - 1) == 0)) {
            end--;
        }
        return value.substring(0, end);
    }

    private ByteBuffer numbers(Token.Leaf leaf, byte[] bytes) throws DicomFormatException {
        hold(leaf.tag(), leaf.offset(), NUMBER_BYTES * (bytes.length / leaf.vr().unitBytes()));
        int ragged = bytes.length % leaf.vr().unitBytes();
        if (ragged != 0) {
            notes.add(new ReadNote(
                    ReadNote.Kind.RAGGED_NUMBERS,
                    leaf.offset(),
                    "%s has %d bytes for numbers of %d"
                            .formatted(leaf.tag(), bytes.length, leaf.vr().unitBytes())));
        }
        return ByteBuffer.wrap(bytes, 0, bytes.length - ragged).order(order);
    }

    private static List<Long> integers(Token.Leaf leaf, ByteBuffer bytes) {
        List<Long> numbers = new ArrayList<>();
        while (bytes.hasRemaining()) {
            numbers.add(
                    switch (leaf.vr()) {
                        case US -> (long) (bytes.getShort() & 0xFFFF);
                        case SS -> (long) bytes.getShort();
                        case UL -> bytes.getInt() & 0xFFFF_FFFFL;
                        case SL -> (long) bytes.getInt();
                        case AT -> ((long) (bytes.getShort() & 0xFFFF) << 16) | (bytes.getShort() & 0xFFFF);
                        default -> bytes.getLong();
                    });
        }
        return numbers;
    }

    private static List<Double> reals(VR vr, ByteBuffer bytes) {
        List<Double> numbers = new ArrayList<>();
        while (bytes.hasRemaining()) {
            numbers.add(vr == VR.FL ? bytes.getFloat() : bytes.getDouble());
        }
        return numbers;
    }
}
