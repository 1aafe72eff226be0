package vestibule.conformance.fuzz;

import static org.assertj.core.api.Assertions.assertThat;

import com.code_intelligence.jazzer.junit.FuzzTest;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import org.junit.jupiter.api.DisplayName;
import vestibule.dicom.data.Attribute;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.PersonName;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.io.DataSetCodec;
import vestibule.dicom.io.DicomFormatException;
import vestibule.dicom.io.TransferSyntax;

@DisplayName("Fuzz: text under every character set")
class TextFuzzTest {

    /** PS3.3 C.12.1.1.2, tables C.12-2 to C.12-5: each alone, and the combinations that names are written in. */
    private static final List<String> SETS = List.of(
            "",
            "ISO_IR 100",
            "ISO_IR 101",
            "ISO_IR 109",
            "ISO_IR 110",
            "ISO_IR 144",
            "ISO_IR 127",
            "ISO_IR 126",
            "ISO_IR 138",
            "ISO_IR 148",
            "ISO_IR 203",
            "ISO_IR 13",
            "ISO_IR 166",
            "ISO_IR 192",
            "GB18030",
            "GBK",
            "\\ISO 2022 IR 87",
            "ISO 2022 IR 13\\ISO 2022 IR 87",
            "\\ISO 2022 IR 149",
            "\\ISO 2022 IR 58",
            "\\ISO 2022 IR 87\\ISO 2022 IR 159",
            "ISO 2022 IR 6\\ISO 2022 IR 100\\ISO 2022 IR 144\\ISO 2022 IR 126",
            "ISO_IR 4711");

    @FuzzTest
    @DisplayName(
            "names and texts are read whatever their bytes, and what can be written is the same when it is read again")
    void decode(byte[] bytes) throws IOException {
        if (bytes.length == 0) {
            return;
        }
        DataSet read;
        try {
            read = DataSetCodec.decode(
                    encoded(SETS.get((bytes[0] & 0xFF) % SETS.size()), bytes),
                    TransferSyntax.EXPLICIT_VR_LITTLE_ENDIAN);
        } catch (DicomFormatException refused) {
            throw new AssertionError("text is never refused, what is no text is noted", refused);
        }
        read.texts(Attributes.PATIENT_NAME).forEach(PersonName::parse);
        byte[] written;
        try {
            written =
                    DataSetCodec.encode(read, TransferSyntax.EXPLICIT_VR_LITTLE_ENDIAN, DataSetCodec.Strictness.QUERY);
        } catch (DicomFormatException refused) {
            return;
        }
        DataSet again = DataSetCodec.decode(written, TransferSyntax.EXPLICIT_VR_LITTLE_ENDIAN);
        for (Attribute attribute : List.of(Attributes.PATIENT_NAME, Attributes.PATIENT_COMMENTS)) {
            assertThat(values(again, attribute)).isEqualTo(values(read, attribute));
        }
    }

    /** Padding alone is no value. */
    private static List<String> values(DataSet dataSet, Attribute attribute) {
        List<String> all = dataSet.texts(attribute);
        return all.equals(List.of("")) ? List.of() : all;
    }

    /** Specific Character Set, then the bytes as a name and as a long text. */
    private static byte[] encoded(String set, byte[] bytes) {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        byte[] terms = set.getBytes(StandardCharsets.US_ASCII);
        element(out, 0x0008, 0x0005, "CS", terms, 0, terms.length);
        int length = Math.min(bytes.length - 1, 60_000);
        element(out, 0x0010, 0x0010, "PN", bytes, 1, length);
        element(out, 0x0010, 0x4000, "LT", bytes, 1, length);
        return out.toByteArray();
    }

    private static void element(
            ByteArrayOutputStream out, int group, int number, String vr, byte[] value, int start, int length) {
        int even = length + (length & 1);
        out.writeBytes(new byte[] {
            (byte) group,
            (byte) (group >> 8),
            (byte) number,
            (byte) (number >> 8),
            (byte) vr.charAt(0),
            (byte) vr.charAt(1),
            (byte) even,
            (byte) (even >> 8)
        });
        out.write(value, start, length);
        if (even > length) {
            out.write(' ');
        }
    }
}
