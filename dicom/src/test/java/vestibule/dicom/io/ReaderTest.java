package vestibule.dicom.io;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.zip.Deflater;
import java.util.zip.DeflaterOutputStream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import vestibule.dicom.data.Bulk;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Element;
import vestibule.dicom.data.Tag;
import vestibule.dicom.data.Uid;
import vestibule.dicom.data.VR;
import vestibule.dicom.data.Value;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.dict.Uids;
import vestibule.samples.Hex;

@DisplayName("The reader of files (PS3.10 7, PS3.5 7)")
class ReaderTest {

    private static final String CODE_ITEM = "FEFF 00E0 0A000000 0800 0001 02000000 \"X \"";

    @TempDir
    private Path folder;

    private DicomFile read(byte[] bytes) throws IOException {
        return DicomFile.read(Files.write(folder.resolve("file.dcm"), bytes));
    }

    private static Value value(DataSet dataSet, int group, int element) {
        return dataSet.find(Tag.of(group, element)).orElseThrow().value();
    }

    private static List<ReadNote.Kind> kinds(DicomFile file) {
        return file.notes().stream().map(ReadNote::kind).toList();
    }

    @Test
    @DisplayName("reads every kind of element of a file assembled by hand, and has nothing to note")
    void handAssembled() throws IOException {
        DicomFile file = read(HandAssembled.jpegFile());
        assertThat(file.notes()).isEmpty();
        assertThat(file.transferSyntax()).isEqualTo(TransferSyntax.JPEG_BASELINE);
        assertThat(file.sopClass()).contains(new Uid("1.2.3"));
        assertThat(file.sopInstance()).contains(new Uid("1.2.34"));
        assertThat(file.meta().integer(Attributes.FILE_META_INFORMATION_GROUP_LENGTH))
                .contains(0x48L);
        DataSet dataSet = file.dataSet();
        List<DataSet> items = ((Value.Items) value(dataSet, 0x0008, 0x1115)).all();
        assertThat(items.get(0).texts(Attributes.PATIENT_NAME)).containsExactly("Büc");
        assertThat(items.get(1).texts(Attributes.PATIENT_ID)).containsExactly("P1", "2");
        assertThat(((Value.Items) value(dataSet, 0x0018, 0x6011)).all()).containsExactly(DataSet.EMPTY);
        assertThat(value(dataSet, 0x0040, 0xA730)).isEqualTo(new Value.Items(List.of()));
        assertThat(value(dataSet, 0x0028, 0x0009)).isEqualTo(new Value.Integers(List.of(0x00540010L)));
        assertThat(dataSet.integer(Attributes.ROWS)).contains(480L);
        assertThat(value(dataSet, 0x0040, 0xA160)).isEqualTo(new Value.Texts(List.of("a\\")));
        assertThat(value(dataSet, 0x0069, 0x1110)).isEqualTo(new Value.Reals(List.of(1.5)));
        assertThat(value(dataSet, 0x7FE0, 0x0010))
                .isEqualTo(new Value.Fragments(
                        List.of(0L),
                        List.of(Bulk.of(new byte[] {-1, -40, -1, -39}), Bulk.of(new byte[] {(byte) 0xAA, (byte) 0xBB
                        }))));
    }

    @Test
    @DisplayName("reads UN of undefined length as a sequence in Implicit VR (PS3.5 6.2.2)")
    void unknownSequence() throws IOException {
        Element element = read(HandAssembled.jpegFile())
                .dataSet()
                .find(Tag.of(0x0009, 0x1001))
                .orElseThrow();
        assertThat(element.vr()).isEqualTo(VR.SQ);
        assertThat(element.encoded().vr()).isEqualTo("UN");
        assertThat(((Value.Items) element.value()).all().get(0).text(Attributes.PATIENT_ID))
                .contains("X");
    }

    @Test
    @DisplayName("keeps the bytes as they stood beside the decoded value")
    void encoded() throws IOException {
        Element element = read(HandAssembled.jpegFile())
                .dataSet()
                .find(Attributes.SOP_CLASS_UID)
                .orElseThrow();
        assertThat(element.encoded().vr()).isEqualTo("UI");
        assertThat(element.encoded().declaredLength()).isEqualTo(6);
        assertThat(element.encoded().bytes().bytes(6)).isEqualTo(new byte[] {'1', '.', '2', '.', '3', 0});
        assertThat(element.value()).isEqualTo(new Value.Texts(List.of("1.2.3")));
        byte[] there = Bulk.of(folder.resolve("file.dcm"), element.encoded().offset(), 4)
                .bytes(4);
        assertThat(there).containsExactly(8, 0, 0x16, 0);
    }

    @Test
    @DisplayName("takes representations from the dictionary in Implicit VR (PS3.5 A.1)")
    void implicit() throws IOException {
        DataSet dataSet = DataSetCodec.decode(Hex.read("""
                        0800 6000 02000000 "XC"
                        0800 1822 00000000
                        0900 1000 04000000 "ACME"          # private creator: LO
                        0900 0110 02000000 0102            # private attribute: UN
                        2800 1000 02000000 E001
                        E07F 1000 04000000 01020304        # Pixel Data: OW
                        """), TransferSyntax.IMPLICIT_VR_LITTLE_ENDIAN);
        assertThat(dataSet.stream().map(Element::vr)).containsExactly(VR.CS, VR.SQ, VR.LO, VR.UN, VR.US, VR.OW);
        assertThat(dataSet.text(Attributes.MODALITY)).contains("XC");
        assertThat(dataSet.integer(Attributes.ROWS)).contains(480L);
    }

    @Test
    @DisplayName("turns numbers and words of big endian files round (PS3.5 7.3)")
    void bigEndian() throws IOException {
        DataSet dataSet = DataSetCodec.decode(Hex.read("""
                        0008 0060 "CS" 0002 "XC"
                        0028 0009 "AT" 0004 0054 0010
                        0028 0010 "US" 0002 01E0
                        0069 1110 "FD" 0008 3FF8000000000000
                        7FE0 0010 "OW" 0000 00000004 0102 0304
                        """), TransferSyntax.EXPLICIT_VR_BIG_ENDIAN);
        assertThat(dataSet.integer(Attributes.ROWS)).contains(480L);
        assertThat(value(dataSet, 0x0028, 0x0009)).isEqualTo(new Value.Integers(List.of(0x00540010L)));
        assertThat(value(dataSet, 0x0069, 0x1110)).isEqualTo(new Value.Reals(List.of(1.5)));
        assertThat(value(dataSet, 0x7FE0, 0x0010)).isEqualTo(new Value.Binary(Bulk.of(new byte[] {2, 1, 4, 3})));
    }

    @Test
    @DisplayName("inflates a deflated data set (PS3.5 A.5)")
    void deflated() throws IOException {
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        bytes.writeBytes(HandAssembled.file("0200 1000 \"UI\" 1600 \"1.2.840.10008.1.2.1.99\""));
        try (DeflaterOutputStream deflater = new DeflaterOutputStream(bytes, new Deflater(9, true))) {
            deflater.write(Hex.read("0800 6000 \"CS\" 0200 \"XC\""));
        }
        DicomFile file = read(bytes.toByteArray());
        assertThat(file.transferSyntax()).isEqualTo(TransferSyntax.DEFLATED_EXPLICIT_VR_LITTLE_ENDIAN);
        assertThat(file.dataSet().text(Attributes.MODALITY)).contains("XC");
    }

    @Test
    @DisplayName("forgives a missing preamble, and guesses the encoding of a bare data set")
    void noPreamble() throws IOException {
        DicomFile explicit = read(Hex.read("0800 6000 \"CS\" 0200 \"XC\""));
        assertThat(kinds(explicit)).containsExactly(ReadNote.Kind.NO_PREAMBLE, ReadNote.Kind.NO_TRANSFER_SYNTAX);
        assertThat(explicit.transferSyntax()).isEqualTo(TransferSyntax.EXPLICIT_VR_LITTLE_ENDIAN);
        DicomFile implicit = read(Hex.read("0800 6000 02000000 \"XC\""));
        assertThat(implicit.transferSyntax()).isEqualTo(TransferSyntax.IMPLICIT_VR_LITTLE_ENDIAN);
        DicomFile big = read(Hex.read("0008 0060 \"CS\" 0002 \"XC\""));
        assertThat(big.transferSyntax()).isEqualTo(TransferSyntax.EXPLICIT_VR_BIG_ENDIAN);
        for (DicomFile file : List.of(explicit, implicit, big)) {
            assertThat(file.dataSet().text(Attributes.MODALITY)).contains("XC");
        }
    }

    @Test
    @DisplayName("believes the bytes, not a transfer syntax that says otherwise")
    void otherEncoding() throws IOException {
        DicomFile file =
                read(HandAssembled.file("0200 1000 \"UI\" 1400 \"1.2.840.10008.1.2.1\" 00  0800 6000 02000000 \"XC\""));
        assertThat(kinds(file)).containsExactly(ReadNote.Kind.OTHER_ENCODING);
        assertThat(file.dataSet().text(Attributes.MODALITY)).contains("XC");
        assertThat(file.transferSyntax().uid()).isEqualTo(Uids.EXPLICIT_VR_LITTLE_ENDIAN);
        assertThat(file.transferSyntax().explicit()).isFalse();
    }

    @Test
    @DisplayName("finds the end of the meta information where its group length is wrong or missing")
    void metaGroupLength() throws IOException {
        String syntax = "0200 1000 \"UI\" 1400 \"1.2.840.10008.1.2.1\" 00";
        String dataSet = "0800 6000 \"CS\" 0200 \"XC\"";
        DicomFile wrong = read(HandAssembled.file("0200 0000 \"UL\" 0400 FF000000 " + syntax + dataSet));
        assertThat(kinds(wrong)).containsExactly(ReadNote.Kind.META_GROUP_LENGTH);
        DicomFile missing = read(HandAssembled.file(syntax + dataSet));
        assertThat(wrong.dataSet()).isEqualTo(missing.dataSet());
        assertThat(missing.dataSet().text(Attributes.MODALITY)).contains("XC");
    }

    @Test
    @DisplayName("notes tags out of order and tags that come twice, of which the first stays")
    void order() throws IOException {
        DicomFile file = read(Hex.read("""
                0800 6000 "CS" 0200 "XC"
                0800 0500 "CS" 0A00 "ISO_IR 192"
                0800 6000 "CS" 0200 "CT"
                """));
        assertThat(kinds(file)).contains(ReadNote.Kind.ORDER, ReadNote.Kind.TWICE);
        assertThat(file.dataSet().text(Attributes.MODALITY)).contains("XC");
    }

    @Test
    @DisplayName("notes odd lengths, ragged numbers, unknown representations, and an element without one")
    void smallDepartures() throws IOException {
        DicomFile file = read(Hex.read("""
                0800 6000 "CS" 0300 "XC "
                2800 0200 "US" 0300 0100FF
                2800 1000 02000000 E001                    # slipped into Implicit VR
                2800 1100 "ZZ" 0000 02000000 E001
                """));
        assertThat(kinds(file))
                .contains(ReadNote.Kind.ODD_LENGTH, ReadNote.Kind.RAGGED_NUMBERS, ReadNote.Kind.UNKNOWN_VR);
        assertThat(file.dataSet().integer(Attributes.SAMPLES_PER_PIXEL)).contains(1L);
        assertThat(file.dataSet().integer(Attributes.ROWS)).contains(480L);
        assertThat(file.dataSet().find(Attributes.COLUMNS).orElseThrow().vr()).isEqualTo(VR.UN);
    }

    @Test
    @DisplayName("lets an item name its own character set, for itself only (PS3.3 C.12.1.1.2)")
    void characterSetOfAnItem() throws IOException {
        DataSet dataSet = DataSetCodec.decode(Hex.read("""
                        0800 0500 "CS" 0A00 "ISO_IR 100"
                        0800 1511 "SQ" 0000 FFFFFFFF
                          FEFF 00E0 FFFFFFFF
                            0800 0500 "CS" 0A00 "ISO_IR 192"
                            1000 1000 "PN" 0200 C3A9        # é in UTF-8
                          FEFF 0DE0 00000000
                          FEFF 00E0 FFFFFFFF
                            1000 1000 "PN" 0200 E920        # é in Latin-1
                          FEFF 0DE0 00000000
                        FEFF DDE0 00000000
                        1000 1000 "PN" 0200 E920
                        """), TransferSyntax.EXPLICIT_VR_LITTLE_ENDIAN);
        List<DataSet> items = ((Value.Items) value(dataSet, 0x0008, 0x1115)).all();
        assertThat(items.get(0).text(Attributes.PATIENT_NAME)).contains("é");
        assertThat(items.get(1).text(Attributes.PATIENT_NAME)).contains("é");
        assertThat(dataSet.text(Attributes.PATIENT_NAME)).contains("é");
    }

    @Test
    @DisplayName("tells the data set's bytes for sending as they are")
    void encodedDataSet() throws IOException {
        byte[] expected = Hex.read(HandAssembled.EXPLICIT);
        assertThat(read(HandAssembled.jpegFile()).encodedDataSet().bytes(1 << 16))
                .isEqualTo(expected);
    }

    @Test
    @DisplayName(
            "reads a sequence inside defined lengths that all agree, and refuses one that reaches beyond what holds it")
    void definedLengths() throws IOException {
        String agrees = "0800 1822 1A000000 FEFF 00E0 12000000 0800 0001 02000000 \"X \" 0800 0201 00000000";
        DataSet dataSet = DataSetCodec.decode(Hex.read(agrees), TransferSyntax.IMPLICIT_VR_LITTLE_ENDIAN);
        assertThat(dataSet.items(Attributes.ANATOMIC_REGION_SEQUENCE).get(0).text(Attributes.CODE_VALUE))
                .contains("X");
        for (String length : List.of("10000000", "13000000", "FF000000")) {
            byte[] bytes = Hex.read("0800 1822 " + length + CODE_ITEM + "0800 6000 02000000 \"XC\"");
            assertThatThrownBy(() -> DataSetCodec.decode(bytes, TransferSyntax.IMPLICIT_VR_LITTLE_ENDIAN))
                    .as("length %s", length)
                    .isInstanceOf(DicomFormatException.class);
        }
    }

    @Test
    @DisplayName("refuses what is no DICOM file, saying at which byte and what it found")
    void notDicom() {
        assertThatThrownBy(() -> read(new byte[0])).isInstanceOf(DicomFormatException.class);
        assertThatThrownBy(() -> read("a letter to the editor".getBytes(java.nio.charset.StandardCharsets.US_ASCII)))
                .isInstanceOf(DicomFormatException.class)
                .hasMessageContaining("at byte 0")
                .hasMessageContaining("DICM");
        assertThatThrownBy(() -> read(Hex.read("FFD8 FFE0 0010 \"JFIF\" 00 0101")))
                .isInstanceOf(DicomFormatException.class);
        assertThatThrownBy(() -> read(HandAssembled.file(HandAssembled.META_JPEG)))
                .isInstanceOf(DicomFormatException.class)
                .hasMessageContaining("a data set");
    }
}
