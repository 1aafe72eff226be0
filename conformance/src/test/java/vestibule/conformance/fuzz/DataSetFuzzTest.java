package vestibule.conformance.fuzz;

import static org.assertj.core.api.Assertions.assertThat;

import com.code_intelligence.jazzer.junit.FuzzTest;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.DisplayName;
import vestibule.dicom.data.Bulk;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Element;
import vestibule.dicom.data.VR;
import vestibule.dicom.data.Value;
import vestibule.dicom.io.DataSetCodec;
import vestibule.dicom.io.DicomFile;
import vestibule.dicom.io.DicomFormatException;
import vestibule.dicom.io.TransferSyntax;

@DisplayName("Fuzz: files and data sets")
class DataSetFuzzTest {

    private static final List<TransferSyntax> SYNTAXES = List.of(
            TransferSyntax.EXPLICIT_VR_LITTLE_ENDIAN,
            TransferSyntax.IMPLICIT_VR_LITTLE_ENDIAN,
            TransferSyntax.EXPLICIT_VR_BIG_ENDIAN,
            TransferSyntax.JPEG_BASELINE);

    /** One file for all executions: a new name each time would measure the file system. */
    private static @Nullable Path file;

    @FuzzTest
    @DisplayName("a file is read or refused; what is read can be asked everything")
    void file(byte[] bytes) throws IOException {
        Path path = Files.write(path(), bytes);
        try {
            DicomFile read = DicomFile.read(path);
            assertThat(read.encodedDataSet().length()).isPositive();
            assertThat(read.notes()).doesNotContainNull();
            read.sopClass();
            read.sopInstance();
        } catch (DicomFormatException refused) {
            assertThat(refused).hasMessageNotContaining("null");
        }
    }

    private static Path path() throws IOException {
        Path path = file;
        if (path == null) {
            path = Files.createTempFile("fuzz-", ".dcm");
            path.toFile().deleteOnExit();
            file = path;
        }
        return path;
    }

    @FuzzTest
    @DisplayName("a data set that is read and can be written is the same when it is read again")
    void dataSet(byte[] bytes) throws IOException {
        if (bytes.length == 0) {
            return;
        }
        TransferSyntax syntax = SYNTAXES.get((bytes[0] & 0xFF) % SYNTAXES.size());
        byte[] rest = java.util.Arrays.copyOfRange(bytes, 1, bytes.length);
        try {
            DataSet read = DataSetCodec.decode(rest, syntax);
            byte[] written = DataSetCodec.encode(read, syntax, DataSetCodec.Strictness.QUERY);
            DataSet again = DataSetCodec.decode(written, syntax);
            assertThat(plain(again)).isEqualTo(plain(read));
        } catch (DicomFormatException refused) {
            assertThat(refused).hasMessageNotContaining("null");
        }
    }

    /** Elements by what they mean: bytes for the pieces of memory they are held in, no padding, no group lengths, blank text for none. */
    private static List<String> plain(DataSet dataSet) {
        return dataSet.stream()
                .filter(element -> !element.tag().isGroupLength())
                .map(DataSetFuzzTest::plain)
                .toList();
    }

    private static String plain(Element element) {
        Value value = element.value();
        if (value instanceof Value.Items items) {
            return element.tag() + " "
                    + items.all().stream().map(DataSetFuzzTest::plain).toList();
        }
        if (value instanceof Value.Binary binary) {
            return element.tag() + " " + hex(binary.bulk());
        }
        if (value instanceof Value.Fragments fragments) {
            return element.tag() + " " + fragments.offsetTable()
                    + fragments.fragments().stream().map(DataSetFuzzTest::hex).toList();
        }
        if (value instanceof Value.Texts texts && texts.all().equals(List.of(""))) {
            value = new Value.Texts(List.of());
        }
        String vr = element.vr() == VR.UN ? "" : element.vr().name();
        return element.tag() + " " + vr + value;
    }

    private static String hex(Bulk bulk) {
        try {
            String hex = java.util.HexFormat.of().formatHex(bulk.bytes(1 << 20));
            return (bulk.length() & 1) == 0 ? hex : hex + "00";
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
