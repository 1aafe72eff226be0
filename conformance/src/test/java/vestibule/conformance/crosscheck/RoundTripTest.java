package vestibule.conformance.crosscheck;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import vestibule.conformance.Corpus;
import vestibule.dicom.data.Bulk;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Element;
import vestibule.dicom.data.Tag;
import vestibule.dicom.data.VR;
import vestibule.dicom.data.Value;
import vestibule.dicom.io.DataSetCodec;
import vestibule.dicom.io.DicomFile;
import vestibule.dicom.io.DicomFormatException;
import vestibule.dicom.io.TransferSyntax;

@DisplayName("Every file of the corpus that we read, written and read again (PS3.5 7)")
class RoundTripTest {

    private static final int LARGEST = 32 << 20;

    /**
     * Private sequences in Implicit VR are known by their undefined length only. Written with a defined one they are the same bytes for whoever
     * knows the creator, and UN for us.
     */
    private static final Set<String> PRIVATE_SEQUENCES =
            Set.of("pydicom_nested_priv_SQ.dcm", "pydicom_meta_missing_tsyntax.dcm");

    @Test
    @DisplayName(
            "is the same data set; in its own transfer syntax the same bytes, or the difference has a known reason")
    void corpus() throws IOException {
        List<String> problems = new ArrayList<>();
        int compared = 0;
        int identical = 0;
        for (Corpus.Row row : Corpus.rows("dicom")) {
            if (row.toString().endsWith(".jpg")) {
                continue;
            }
            DicomFile file;
            byte[] written;
            TransferSyntax syntax;
            try {
                file = DicomFile.read(row.path());
                syntax = writable(file.transferSyntax());
                written = DataSetCodec.encode(file.dataSet(), syntax, DataSetCodec.Strictness.QUERY);
            } catch (DicomFormatException refused) {
                assertThat(refused).hasMessageNotContaining("null");
                continue;
            }
            compared++;
            DataSet again = DataSetCodec.decode(written, syntax);
            if (!PRIVATE_SEQUENCES.contains(row.toString()) && !plain(again).equals(plain(file.dataSet()))) {
                problems.add(row + " is another data set");
            }
            byte[] original = file.encodedDataSet().bytes(LARGEST);
            boolean same = Arrays.equals(original, written);
            identical += same ? 1 : 0;
            Set<String> reasons = reasons(file, syntax);
            if (!same && reasons.isEmpty()) {
                problems.add(row + " has other bytes, and nothing says why");
            }
        }
        System.out.printf("round trip of the corpus: %d files, %d of them byte for byte%n", compared, identical);
        assertThat(problems).isEmpty();
        assertThat(compared).isGreaterThan(70);
        assertThat(identical).isGreaterThan(15);
    }

    private static TransferSyntax writable(TransferSyntax syntax) {
        boolean asItIs = syntax.encapsulated()
                || syntax.equals(TransferSyntax.IMPLICIT_VR_LITTLE_ENDIAN)
                || syntax.equals(TransferSyntax.EXPLICIT_VR_LITTLE_ENDIAN);
        return asItIs ? syntax : TransferSyntax.EXPLICIT_VR_LITTLE_ENDIAN;
    }

    /** Why a writer that follows PS3.5 in its plainest form cannot give the same bytes back. */
    private static Set<String> reasons(DicomFile file, TransferSyntax syntax) {
        Set<String> reasons = new TreeSet<>();
        if (!file.transferSyntax().equals(syntax)) {
            reasons.add("a transfer syntax that is only read");
        }
        file.notes().forEach(note -> reasons.add("forgiven: " + note.kind()));
        collect(file.dataSet(), reasons);
        return reasons;
    }

    private static void collect(DataSet dataSet, Set<String> reasons) {
        for (Element element : dataSet) {
            Element.Encoded encoded = element.encoded();
            if (element.tag().isGroupLength()) {
                reasons.add("group lengths, which PS3.5 7.2 has retired");
            }
            if (element.value() instanceof Value.Items items) {
                if (encoded == null || encoded.declaredLength() == Element.Encoded.UNDEFINED_LENGTH) {
                    reasons.add("sequences of undefined length");
                }
                if (encoded != null && encoded.vr().equals("UN")) {
                    reasons.add("a sequence under UN");
                }
                if (encoded != null && encoded.declaredLength() > lengthOf(items)) {
                    reasons.add("items of undefined length");
                }
                items.all().forEach(item -> collect(item, reasons));
            } else if (element.value() instanceof Value.Texts texts && encoded != null) {
                int least = texts.all().stream().mapToInt(String::length).sum()
                        + Math.max(0, texts.all().size() - 1);
                if (encoded.bytes().length() > least + (least & 1)) {
                    reasons.add("more padding than the even length needs");
                }
                collectPadding(element, encoded, least, reasons);
            }
        }
    }

    private static void collectPadding(Element element, Element.Encoded encoded, int least, Set<String> reasons) {
        try {
            byte[] bytes = encoded.bytes().bytes(LARGEST);
            byte right = (byte) (element.vr() == VR.UI ? 0 : ' ');
            byte last = bytes.length == 0 ? right : bytes[bytes.length - 1];
            if ((last == 0 || last == ' ') && last != right) {
                reasons.add("padding with another byte");
            }
            if (bytes.length > least && last != 0 && last != ' ') {
                reasons.add("padding between values");
            }
        } catch (IOException e) {
            throw new java.io.UncheckedIOException(e);
        }
    }

    /** The bytes of items of defined length, as far as they can be told from the elements in them. */
    private static long lengthOf(Value.Items items) {
        long length = 0;
        for (DataSet item : items.all()) {
            length += 8;
            for (Element element : item) {
                Element.Encoded encoded = element.encoded();
                long declared = encoded == null ? 0 : encoded.declaredLength();
                boolean longForm = encoded != null
                        && !encoded.vr().isEmpty()
                        && element.vr().longForm();
                length += (longForm ? 12 : 8) + (declared == Element.Encoded.UNDEFINED_LENGTH ? 0 : declared);
            }
        }
        return length;
    }

    /** Elements by what they mean: bytes for the places they are held in, no group lengths, blank text for none. */
    private static List<String> plain(DataSet dataSet) throws IOException {
        List<String> lines = new ArrayList<>();
        for (Element element : dataSet) {
            if (!element.tag().isGroupLength()) {
                lines.add(plain(element.tag(), element));
            }
        }
        return lines;
    }

    private static String plain(Tag tag, Element element) throws IOException {
        Value value = element.value();
        if (value instanceof Value.Items items) {
            List<String> all = new ArrayList<>();
            for (DataSet item : items.all()) {
                all.add(plain(item).toString());
            }
            return tag + " " + all;
        }
        if (value instanceof Value.Binary binary) {
            return tag + " " + hash(binary.bulk());
        }
        if (value instanceof Value.Fragments fragments) {
            List<Integer> all = new ArrayList<>();
            for (Bulk fragment : fragments.fragments()) {
                all.add(hash(fragment));
            }
            return tag + " " + fragments.offsetTable() + all;
        }
        boolean blank = value instanceof Value.Texts texts && texts.all().equals(List.of(""));
        return tag + " " + (blank ? new Value.Texts(List.of()) : value);
    }

    private static int hash(Bulk bulk) throws IOException {
        byte[] bytes = bulk.bytes(LARGEST);
        return Arrays.hashCode((bytes.length & 1) == 0 ? bytes : Arrays.copyOf(bytes, bytes.length + 1));
    }
}
