package vestibule.dicom.io;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.time.Duration;
import java.util.zip.Deflater;
import java.util.zip.DeflaterOutputStream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Element;
import vestibule.dicom.data.Tag;
import vestibule.dicom.data.Value;
import vestibule.samples.Hex;

/** These tests run in a heap of 256 MB, so that what allocates by a declared length, or without end, fails them. */
@DisplayName("What a hostile file may ask for")
class LimitsTest {

    private static final Limits SMALL = new Limits(4, 10, 1024, 8192, 4096, 3, Duration.ofSeconds(20));

    @TempDir
    private Path folder;

    private static DataSet decode(String hex, TransferSyntax syntax) throws IOException {
        return DataSetCodec.decode(Hex.read(hex), syntax, SMALL);
    }

    private static void refused(String hex, String words) {
        assertThatThrownBy(() -> decode(hex, TransferSyntax.JPEG_BASELINE))
                .isInstanceOf(DicomFormatException.class)
                .hasMessageContaining(words);
    }

    @Test
    @DisplayName("sequences nest no deeper than the limit")
    void depth() throws IOException {
        String level = "0800 1511 \"SQ\" 0000 FFFFFFFF FEFF 00E0 FFFFFFFF ";
        String end = "FEFF 0DE0 00000000 FEFF DDE0 00000000 ";
        decode(level.repeat(4) + end.repeat(4), TransferSyntax.EXPLICIT_VR_LITTLE_ENDIAN);
        refused(level.repeat(5) + end.repeat(5), "nested deeper than 4");
    }

    @Test
    @DisplayName("a thousand levels end in a refusal, not in the stack")
    void depthOfTheStack() {
        byte[] bytes = Hex.read("0800 1511 FFFFFFFF FEFF 00E0 FFFFFFFF ".repeat(100_000));
        assertThatThrownBy(() -> DataSetCodec.decode(bytes, TransferSyntax.IMPLICIT_VR_LITTLE_ENDIAN))
                .isInstanceOf(DicomFormatException.class)
                .hasMessageContaining("nested deeper");
    }

    @Test
    @DisplayName("elements and items are counted at every depth")
    void elements() throws IOException {
        String item = "FEFF 00E0 00000000 ";
        String sequence = "0800 1511 \"SQ\" 0000 FFFFFFFF ";
        String end = "FEFF DDE0 00000000 ";
        decode(sequence + item.repeat(9) + end, TransferSyntax.EXPLICIT_VR_LITTLE_ENDIAN);
        refused(sequence + item.repeat(10) + end, "more than 10 data elements");
        refused("0800 6000 \"CS\" 0000 ".repeat(11), "more than 10 data elements");
    }

    @Test
    @DisplayName("fragments are counted, the offset table among them")
    void fragments() throws IOException {
        String start = "E07F 1000 \"OB\" 0000 FFFFFFFF ";
        String fragment = "FEFF 00E0 02000000 FFD8 ";
        String end = "FEFF DDE0 00000000 ";
        decode(start + fragment.repeat(3) + end, TransferSyntax.JPEG_BASELINE);
        refused(start + fragment.repeat(4) + end, "more than 3 fragments");
    }

    @Test
    @DisplayName("one value of text or numbers, and an offset table, stay below the limit for one value")
    void valueBytes() {
        refused("4000 60A1 \"UT\" 0000 02040000" + "41".repeat(1026), "at most 1024");
        refused(
                "E07F 1000 \"OB\" 0000 FFFFFFFF FEFF 00E0 04040000" + "00".repeat(1028) + "FEFF DDE0 00000000",
                "at most 1024");
    }

    @Test
    @DisplayName("all values together stay below the limit for what is held")
    void heldBytes() {
        String backslashes = "0800 6000 \"CS\" E803" + "5C".repeat(1000);
        refused(backslashes, "fill the memory");
        String words = "4000 60A1 \"UT\" 0000 00040000" + "41".repeat(1024);
        refused("0800 1511 \"SQ\" 0000 FFFFFFFF" + ("FEFF 00E0 0C040000" + words).repeat(4), "fill the memory");
    }

    @ParameterizedTest
    @DisplayName("a declared length of up to 4 GB allocates nothing")
    @ValueSource(
            strings = {
                "4000 60A1 \"UT\" 0000 FEFFFFFF 41",
                "E07F 1000 \"OB\" 0000 FEFFFFFF 41",
                "0800 1511 \"SQ\" 0000 FEFFFFFF 41",
                "0800 1511 \"SQ\" 0000 FFFFFFFF FEFF 00E0 FEFFFFFF 41",
                "E07F 1000 \"OB\" 0000 FFFFFFFF FEFF 00E0 FEFFFFFF 41",
                "0900 0110 \"UN\" 0000 FEFFFFFF 41"
            })
    void declaredLength(String hex) throws IOException {
        assertThatThrownBy(() -> DataSetCodec.decode(Hex.read(hex), TransferSyntax.EXPLICIT_VR_LITTLE_ENDIAN))
                .isInstanceOf(DicomFormatException.class)
                .hasMessageContaining("4294967294");
        Path file = Files.write(folder.resolve("long.dcm"), Hex.read(hex));
        assertThatThrownBy(() -> DicomFile.read(file)).isInstanceOf(DicomFormatException.class);
    }

    @Test
    @DisplayName("meta information of 4 GB allocates nothing either")
    void declaredMeta() throws IOException {
        Path file = Files.write(
                folder.resolve("meta.dcm"),
                HandAssembled.file("0200 0100 \"OB\" 0000 FEFFFFFF 0001 0800 6000 \"CS\" 0000"));
        assertThatThrownBy(() -> DicomFile.read(file)).isInstanceOf(DicomFormatException.class);
    }

    @Test
    @DisplayName("small binary values that together exceed the memory stay in the file")
    void manySmallValues() throws IOException {
        Path file = sparse("OB", 1 << 16, 5_000);
        DataSet dataSet = DicomFile.read(file).dataSet();
        Element element = dataSet.find(Tag.of(0x0009 + 2 * 4, 0x1000)).orElseThrow();
        assertThat(((Value.Binary) element.value()).bulk().length()).isEqualTo(1 << 16);
    }

    @Test
    @DisplayName("long texts that together exceed the memory are refused")
    void manyLongTexts() throws IOException {
        Path file = sparse("UT", 4 << 20, 100);
        assertThatThrownBy(() -> DicomFile.read(file))
                .isInstanceOf(DicomFormatException.class)
                .hasMessageContaining("fill the memory");
    }

    /** Private elements of one length, with zeros for values, in a file that takes little room on the disk. */
    private Path sparse(String vr, int length, int count) throws IOException {
        Path file = Files.write(folder.resolve("sparse.dcm"), Hex.read("0800 6000 \"CS\" 0200 \"XC\""));
        try (FileChannel channel = FileChannel.open(file, StandardOpenOption.WRITE)) {
            long position = channel.size();
            for (int i = 0; i < count; i++) {
                ByteBuffer header = ByteBuffer.allocate(12).order(ByteOrder.LITTLE_ENDIAN);
                header.putShort((short) (0x0009 + 2 * (i / 1000))).putShort((short) (0x1000 + i % 1000));
                header.put((byte) vr.charAt(0))
                        .put((byte) vr.charAt(1))
                        .putShort((short) 0)
                        .putInt(length);
                channel.write(header.flip(), position);
                position += 12L + length;
            }
            channel.write(ByteBuffer.wrap(new byte[1]), position - 1);
        }
        return file;
    }

    @Test
    @DisplayName("a deflated data set that inflates without end is refused")
    void deflateBomb() throws IOException {
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        bytes.writeBytes(HandAssembled.file("0200 1000 \"UI\" 1600 \"1.2.840.10008.1.2.1.99\""));
        try (DeflaterOutputStream deflater = new DeflaterOutputStream(bytes, new Deflater(9, true))) {
            byte[] zeros = new byte[1 << 20];
            for (int i = 0; i < 200; i++) {
                deflater.write(zeros);
            }
        }
        Path file = Files.write(folder.resolve("bomb.dcm"), bytes.toByteArray());
        assertThatThrownBy(() -> DicomFile.read(file))
                .isInstanceOf(DicomFormatException.class)
                .hasMessageContaining("inflates beyond");
    }

    @Test
    @DisplayName("a big endian value that would have to be turned round in memory is refused beyond the limit")
    void bigEndian() {
        String pixels = "7FE0 0010 \"OW\" 0000 00001002" + "00".repeat(4098);
        assertThatThrownBy(() -> decode(pixels, TransferSyntax.EXPLICIT_VR_BIG_ENDIAN))
                .isInstanceOf(DicomFormatException.class)
                .hasMessageContaining("big endian");
    }
}
