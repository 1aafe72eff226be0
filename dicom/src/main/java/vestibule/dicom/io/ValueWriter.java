package vestibule.dicom.io;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import vestibule.dicom.data.Bulk;
import vestibule.dicom.data.Element;
import vestibule.dicom.data.TextForm;
import vestibule.dicom.data.VR;
import vestibule.dicom.data.Value;
import vestibule.dicom.dict.Dictionary;

/** The bytes of one value field, padded to even length (PS3.5 6.2), refused where a value breaks the form it must have. */
final class ValueWriter {

    private final DataSetCodec.Strictness strictness;

    ValueWriter(DataSetCodec.Strictness strictness) {
        this.strictness = strictness;
    }

    Bulk encode(Element element, CharacterSet characters) throws IOException {
        if (strictness == DataSetCodec.Strictness.OBJECT) {
            checkMultiplicity(element);
        }
        Value value = element.value();
        if (value instanceof Value.Texts texts) {
            return Bulk.of(text(element, texts.all(), characters));
        }
        if (value instanceof Value.Integers numbers) {
            return Bulk.of(integers(element, numbers.all()));
        }
        if (value instanceof Value.Reals numbers) {
            return Bulk.of(reals(element, numbers.all()));
        }
        if (value instanceof Value.Binary binary) {
            return padded(binary.bulk());
        }
        throw new AssertionError(value);
    }

    private static Bulk padded(Bulk bytes) {
        return (bytes.length() & 1) == 0 ? bytes : Bulk.concat(List.of(bytes, Bulk.of(new byte[1])));
    }

    private static void checkMultiplicity(Element element) throws DicomFormatException {
        int count = element.value().count();
        Optional<Dictionary.AttributeEntry> entry = Dictionary.standard().find(element.tag());
        if (count > 0
                && entry.isPresent()
                && element.vr().kind() != VR.Kind.BINARY
                && !entry.get().attribute().multiplicity().allows(count)) {
            throw new DicomFormatException("%s has %d values, and the dictionary allows %s"
                    .formatted(
                            entry.get().attribute(),
                            count,
                            entry.get().attribute().multiplicity()));
        }
    }

    private byte[] text(Element element, List<String> values, CharacterSet characters) throws DicomFormatException {
        if (values.isEmpty()) {
            return new byte[0];
        }
        if (values.size() > 1 && !element.vr().severalValues()) {
            throw new DicomFormatException("%s has %d values, and %s takes one"
                    .formatted(Dictionary.standard().describe(element.tag()), values.size(), element.vr()));
        }
        if (strictness == DataSetCodec.Strictness.OBJECT) {
            for (String value : values) {
                // An empty value among several keeps its place (PS3.5 6.4)
                Optional<String> problem = value.isEmpty() ? Optional.empty() : TextForm.problem(element.vr(), value);
                if (problem.isPresent()) {
                    throw new DicomFormatException(
                            Dictionary.standard().describe(element.tag()) + " has " + problem.get());
                }
            }
        }
        CharacterSet used = element.vr().followsCharacterSet() ? characters : CharacterSet.DEFAULT;
        byte[] bytes = used.encode(String.join("\\", values), element.vr())
                .orElseThrow(() -> new DicomFormatException("%s has a character that its character set %s does not have"
                        .formatted(
                                Dictionary.standard().describe(element.tag()),
                                used.terms().isEmpty() ? "(the default repertoire)" : used.terms())));
        if ((bytes.length & 1) == 0) {
            return bytes;
        }
        byte[] even = Arrays.copyOf(bytes, bytes.length + 1);
        even[bytes.length] = element.vr().padding();
        return even;
    }

    private static byte[] integers(Element element, List<Long> numbers) throws DicomFormatException {
        VR vr = element.vr();
        ByteBuffer bytes = ByteBuffer.allocate(numbers.size() * vr.unitBytes()).order(ByteOrder.LITTLE_ENDIAN);
        for (long number : numbers) {
            if (!fits(vr, number)) {
                throw new DicomFormatException("%s has a number that does not fit into the %d bytes of %s"
                        .formatted(Dictionary.standard().describe(element.tag()), vr.unitBytes(), vr));
            }
            switch (vr) {
                case US, SS -> bytes.putShort((short) number);
                case AT -> bytes.putShort((short) (number >>> 16)).putShort((short) number);
                case UL, SL -> bytes.putInt((int) number);
                default -> bytes.putLong(number);
            }
        }
        return bytes.array();
    }

    private static boolean fits(VR vr, long number) {
        return switch (vr) {
            case US -> number >= 0 && number <= 0xFFFF;
            case SS -> number == (short) number;
            case UL, AT -> number >= 0 && number <= 0xFFFF_FFFFL;
            case SL -> number == (int) number;
            default -> true;
        };
    }

    private static byte[] reals(Element element, List<Double> numbers) throws DicomFormatException {
        VR vr = element.vr();
        ByteBuffer bytes = ByteBuffer.allocate(numbers.size() * vr.unitBytes()).order(ByteOrder.LITTLE_ENDIAN);
        for (double number : numbers) {
            if (vr == VR.FL && Double.isFinite(number) && Float.isInfinite((float) number)) {
                throw new DicomFormatException("%s has a number beyond the range of FL"
                        .formatted(Dictionary.standard().describe(element.tag())));
            }
            if (vr == VR.FL) {
                bytes.putFloat((float) number);
            } else {
                bytes.putDouble(number);
            }
        }
        return bytes.array();
    }
}
