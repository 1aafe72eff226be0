package vestibule.dicom.io;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.io.RandomAccessFile;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import vestibule.dicom.data.Bulk;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Element;
import vestibule.dicom.data.Tag;
import vestibule.dicom.data.VR;
import vestibule.dicom.data.Value;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.io.DataSetCodec.Strictness;
import vestibule.samples.Hex;

@DisplayName("The writer of files (PS3.10 7, PS3.5 7)")
class WriterTest {

    @TempDir
    private Path folder;

    private static DataSet.Builder identified() {
        return DataSet.builder().put(Attributes.SOP_CLASS_UID, "1.2.3").put(Attributes.SOP_INSTANCE_UID, "1.2.34");
    }

    private void refused(DataSet dataSet, TransferSyntax syntax, String... words) throws IOException {
        Path target = folder.resolve("refused.dcm");
        assertThatThrownBy(() -> DicomFile.write(target, dataSet, syntax))
                .isInstanceOf(DicomFormatException.class)
                .hasMessageContainingAll(words);
        try (Stream<Path> left = Files.list(folder)) {
            assertThat(left).as("files left behind").isEmpty();
        }
    }

    private void refused(DataSet.Builder builder, String... words) throws IOException {
        refused(builder.build(), TransferSyntax.EXPLICIT_VR_LITTLE_ENDIAN, words);
    }

    private static Element privateElement(VR vr, Value value) {
        return new Element(Tag.of(0x0009, 0x1001), vr, value);
    }

    @Test
    @DisplayName(
            "writes the bytes that PS3.5 7 lays down: padding, long and short forms, defined lengths, one delimiter after fragments")
    void bytes() throws IOException {
        DataSet dataSet = identified()
                .put(Attributes.MODALITY, "XC")
                .put(Attributes.PATIENT_ID, "P", "23")
                .put(
                        Attributes.ANATOMIC_REGION_SEQUENCE,
                        List.of(
                                DataSet.builder()
                                        .put(Attributes.CODE_VALUE, "123")
                                        .build(),
                                DataSet.EMPTY))
                .put(Attributes.ROWS, 480L)
                .put(new Element(
                        Attributes.PIXEL_DATA.tag(),
                        VR.OB,
                        new Value.Fragments(List.of(0L), List.of(Bulk.of(new byte[] {-1, -40, 7})))))
                .build();
        assertThat(DataSetCodec.encode(dataSet, TransferSyntax.JPEG_BASELINE, Strictness.QUERY))
                .isEqualTo(Hex.read("""
                        0800 1600 "UI" 0600 "1.2.3" 00
                        0800 1800 "UI" 0600 "1.2.34"
                        0800 6000 "CS" 0200 "XC"
                        0800 1822 "SQ" 0000 1C000000
                          FEFF 00E0 0C000000
                            0800 0001 "SH" 0400 "123 "
                          FEFF 00E0 00000000
                        1000 2000 "LO" 0400 "P" 5C "23"
                        2800 1000 "US" 0200 E001
                        E07F 1000 "OB" 0000 FFFFFFFF
                          FEFF 00E0 04000000 00000000
                          FEFF 00E0 04000000 FFD80700
                        FEFF DDE0 00000000
                        """));
    }

    @Test
    @DisplayName("writes preamble, prefix and meta information with its group length (PS3.10 7.1)")
    void meta() throws IOException {
        Path target = folder.resolve("good.dcm");
        DicomFile.write(target, identified().build(), TransferSyntax.EXPLICIT_VR_LITTLE_ENDIAN);
        DicomFile file = DicomFile.read(target);
        assertThat(file.preamble().bytes(128)).isEqualTo(new byte[128]);
        long groupLength = file.meta()
                .integer(Attributes.FILE_META_INFORMATION_GROUP_LENGTH)
                .orElseThrow();
        assertThat(file.dataSetOffset()).isEqualTo(132 + 12 + groupLength);
        assertThat(file.meta().text(Attributes.MEDIA_STORAGE_SOP_CLASS_UID)).contains("1.2.3");
        assertThat(file.meta().text(Attributes.MEDIA_STORAGE_SOP_INSTANCE_UID)).contains("1.2.34");
        assertThat(file.meta().text(Attributes.TRANSFER_SYNTAX_UID)).contains("1.2.840.10008.1.2.1");
        assertThat(file.meta().text(Attributes.IMPLEMENTATION_CLASS_UID)).contains(Implementation.CLASS_UID.value());
    }

    @Test
    @DisplayName("takes the place of an older file, and leaves nothing else in the folder")
    void replaces() throws IOException {
        Path target = Files.writeString(folder.resolve("good.dcm"), "older");
        DicomFile.write(target, identified().build(), TransferSyntax.EXPLICIT_VR_LITTLE_ENDIAN);
        assertThat(DicomFile.read(target).sopInstance()).isPresent();
        try (Stream<Path> left = Files.list(folder)) {
            assertThat(left).containsExactly(target);
        }
    }

    @Test
    @DisplayName("keeps an older file when it refuses to write a new one")
    void keepsOlder() throws IOException {
        Path target = Files.writeString(folder.resolve("good.dcm"), "older");
        assertThatThrownBy(() -> DicomFile.write(target, DataSet.EMPTY, TransferSyntax.EXPLICIT_VR_LITTLE_ENDIAN))
                .isInstanceOf(DicomFormatException.class);
        assertThat(target).hasContent("older");
    }

    @Test
    @DisplayName("writes encapsulated pixel data inside an item, as an icon has it, with the length it takes")
    void fragmentsInAnItem() throws IOException {
        Element pixels = new Element(
                Attributes.PIXEL_DATA.tag(), VR.OB, new Value.Fragments(List.of(), List.of(Bulk.of(new byte[] {1, 2
                }))));
        DataSet dataSet = DataSet.builder()
                .put(new Element(
                        Tag.of(0x0088, 0x0200),
                        VR.SQ,
                        new Value.Items(List.of(DataSet.builder().put(pixels).build()))))
                .put(Attributes.PIXEL_DATA, Bulk.EMPTY)
                .build();
        byte[] bytes = DataSetCodec.encode(dataSet, TransferSyntax.JPEG_BASELINE, Strictness.QUERY);
        assertThat(DataSetCodec.decode(bytes, TransferSyntax.JPEG_BASELINE)
                        .elements()
                        .get(0))
                .isEqualTo(dataSet.elements().get(0));
    }

    @Test
    @DisplayName("writes one element that stands in items of two character sets in each of them")
    void sharedElement() throws IOException {
        Element name = new Element(Attributes.PATIENT_NAME.tag(), VR.PN, new Value.Texts(List.of("é")));
        DataSet latin = DataSet.builder()
                .put(Attributes.SPECIFIC_CHARACTER_SET, "ISO_IR 100")
                .put(name)
                .build();
        DataSet utf8 = DataSet.builder()
                .put(Attributes.SPECIFIC_CHARACTER_SET, "ISO_IR 192")
                .put(name)
                .build();
        DataSet dataSet = DataSet.builder()
                .put(Attributes.ANATOMIC_REGION_SEQUENCE, List.of(latin, utf8))
                .build();
        byte[] bytes = DataSetCodec.encode(dataSet, TransferSyntax.EXPLICIT_VR_LITTLE_ENDIAN, Strictness.OBJECT);
        assertThat(DataSetCodec.decode(bytes, TransferSyntax.EXPLICIT_VR_LITTLE_ENDIAN))
                .isEqualTo(dataSet);
    }

    @Test
    @DisplayName("refuses a data set without identifiers, or with something else in their place")
    void identifiers() throws IOException {
        refused(DataSet.builder().put(Attributes.SOP_INSTANCE_UID, "1.2.3"), "SOPClassUID");
        refused(DataSet.builder().put(Attributes.SOP_CLASS_UID, "1.2.3"), "SOPInstanceUID");
        refused(identified().put(Attributes.SOP_CLASS_UID, "VL Photo"), "SOPClassUID", "unique identifier");
    }

    @Test
    @DisplayName("refuses values that break the form of their representation, without repeating them")
    void forms() throws IOException {
        refused(identified().put(Attributes.STUDY_DATE, "2026-11-25"), "StudyDate", "10 characters");
        refused(identified().put(Attributes.MODALITY, "xc"), "Modality");
        refused(identified().put(Attributes.PATIENT_ID, "back\\slash"), "PatientID");
        Path target = folder.resolve("name.dcm");
        assertThatThrownBy(() -> DicomFile.write(
                        target,
                        identified()
                                .put(Attributes.PATIENT_NAME, "Vandermeer=a=b=c")
                                .build(),
                        TransferSyntax.EXPLICIT_VR_LITTLE_ENDIAN))
                .hasMessageContaining("PatientName")
                .message()
                .doesNotContain("Vandermeer");
    }

    @Test
    @DisplayName("refuses more or fewer values than the dictionary allows, and several where one is meant")
    void multiplicity() throws IOException {
        refused(identified().put(Attributes.PATIENT_ID, "a", "b"), "2 values", "allows 1");
        refused(identified().put(privateElement(VR.UT, new Value.Texts(List.of("a", "b")))), "2 values");
    }

    @Test
    @DisplayName("refuses numbers that the representation does not hold")
    void numbers() throws IOException {
        refused(identified().put(Attributes.ROWS, 65536L), "Rows", "2 bytes of US");
        refused(identified().put(Attributes.ROWS, -1L), "Rows");
        refused(identified().put(privateElement(VR.SS, new Value.Integers(List.of(32768L)))), "SS");
        refused(identified().put(privateElement(VR.UL, new Value.Integers(List.of(1L << 32)))), "UL");
        refused(identified().put(privateElement(VR.SL, new Value.Integers(List.of(1L << 31)))), "SL");
        refused(identified().put(privateElement(VR.FL, new Value.Reals(List.of(1e300)))), "FL");
    }

    @Test
    @DisplayName("refuses characters that the declared set does not have, and a set it does not write")
    void characters() throws IOException {
        refused(identified().put(Attributes.PATIENT_NAME, "Jérôme"), "PatientName", "default repertoire");
        refused(
                identified()
                        .put(Attributes.SPECIFIC_CHARACTER_SET, "ISO_IR 100")
                        .put(Attributes.PATIENT_NAME, "山田"),
                "PatientName",
                "ISO_IR 100");
        refused(identified().put(Attributes.SPECIFIC_CHARACTER_SET, "ISO 2022 IR 9"), "SpecificCharacterSet");
        refused(
                identified()
                        .put(Attributes.SPECIFIC_CHARACTER_SET, "ISO_IR 192")
                        .put(privateElement(VR.AE, new Value.Texts(List.of("ZÄHNE")))),
                "AE");
    }

    @Test
    @DisplayName("refuses a value too long for its length field, and reads none of it")
    void lengths() throws IOException {
        Bulk five = Bulk.of(folder.resolve("not there"), 0, 5L << 30);
        refused(identified().put(privateElement(VR.OB, new Value.Binary(five))), "5368709120 bytes");
        refused(
                identified()
                        .put(privateElement(VR.OB, new Value.Fragments(List.of(), List.of(five))))
                        .build(),
                TransferSyntax.JPEG_BASELINE,
                "fragment");
        refused(
                identified()
                        .put(privateElement(
                                VR.LO, new Value.Texts(java.util.Collections.nCopies(2000, "x".repeat(64))))),
                "65534");
    }

    @Test
    @DisplayName("refuses fragments in a transfer syntax that has none, and syntaxes it does not write")
    void syntaxes() throws IOException {
        Element pixels = new Element(Tag.of(0x7FE0, 0x0010), VR.OB, new Value.Fragments(List.of(), List.of()));
        refused(identified().put(pixels), "encapsulated");
        Element words = new Element(Tag.of(0x7FE0, 0x0010), VR.OW, new Value.Fragments(List.of(), List.of()));
        refused(identified().put(words).build(), TransferSyntax.JPEG_BASELINE, "OB");
        refused(identified().build(), TransferSyntax.EXPLICIT_VR_BIG_ENDIAN, "not written");
        refused(identified().build(), TransferSyntax.DEFLATED_EXPLICIT_VR_LITTLE_ENDIAN, "not written");
    }

    @Test
    @DisplayName("refuses elements that no data set of an object has")
    void foreignGroups() throws IOException {
        Value text = new Value.Texts(List.of("1.2.3"));
        refused(identified().put(new Element(Tag.of(0x0002, 0x0010), VR.UI, text)), "meta information");
        refused(identified().put(new Element(Tag.of(0x0000, 0x0002), VR.UI, text)), "command");
        refused(identified().put(new Element(Tag.ITEM, VR.OB, new Value.Binary(Bulk.EMPTY))), "delimits");
    }

    @Test
    @DisplayName("leaves nothing behind when the pixel data's file has become shorter")
    void shortened() throws IOException {
        Path source = folder.resolve("source");
        Files.write(source, new byte[10]);
        DataSet dataSet = identified()
                .put(privateElement(VR.OB, new Value.Binary(Bulk.of(source, 0, 100_000))))
                .build();
        assertThatThrownBy(() ->
                        DicomFile.write(folder.resolve("out.dcm"), dataSet, TransferSyntax.EXPLICIT_VR_LITTLE_ENDIAN))
                .isInstanceOf(IOException.class);
        try (Stream<Path> left = Files.list(folder)) {
            assertThat(left).containsExactly(source);
        }
    }

    @Test
    @DisplayName("writes and reads 300 MB of pixel data within a heap of 256 MB")
    void large() throws IOException {
        Path source = folder.resolve("large");
        long length = 300L << 20;
        try (RandomAccessFile file = new RandomAccessFile(source.toFile(), "rw")) {
            file.setLength(length);
            file.seek(length - 2);
            file.write(new byte[] {-1, -39});
        }
        DataSet dataSet = identified()
                .put(new Element(
                        Tag.of(0x7FE0, 0x0010),
                        VR.OB,
                        new Value.Fragments(List.of(), List.of(Bulk.of(source, 0, length)))))
                .build();
        Path target = folder.resolve("large.dcm");
        DicomFile.write(target, dataSet, TransferSyntax.JPEG_BASELINE);
        Value.Fragments read = (Value.Fragments) DicomFile.read(target)
                .dataSet()
                .find(Tag.of(0x7FE0, 0x0010))
                .orElseThrow()
                .value();
        assertThat(read.fragments().get(0).length()).isEqualTo(length);
        assertThat(read.fragments().get(0).part(length - 2, 2).bytes(2)).containsExactly(0xFF, 0xD9);
    }

    @Test
    @DisplayName("lets keys of a query have wild cards and ranges (PS3.4 C.2.2.2)")
    void queries() throws IOException {
        DataSet keys = DataSet.builder()
                .put(Attributes.STUDY_DATE, "20260101-20261231")
                .build();
        assertThat(DataSetCodec.encode(keys, TransferSyntax.IMPLICIT_VR_LITTLE_ENDIAN, Strictness.QUERY))
                .hasSize(8 + 18);
        assertThatThrownBy(() -> DataSetCodec.encode(keys, TransferSyntax.IMPLICIT_VR_LITTLE_ENDIAN, Strictness.OBJECT))
                .isInstanceOf(DicomFormatException.class);
    }

    @Test
    @DisplayName("works out the group length of a command (PS3.7 6.3.1)")
    void command() throws IOException {
        DataSet echo = DataSet.builder()
                .put(Attributes.AFFECTED_SOP_CLASS_UID, "1.2.840.10008.1.1")
                .put(Attributes.COMMAND_FIELD, 0x30L)
                .build();
        assertThat(DataSetCodec.encode(echo, TransferSyntax.IMPLICIT_VR_LITTLE_ENDIAN, Strictness.OBJECT))
                .isEqualTo(Hex.read("""
                        0000 0000 04000000 24000000
                        0000 0200 12000000 "1.2.840.10008.1.1" 00
                        0000 0001 02000000 3000
                        """));
    }
}
